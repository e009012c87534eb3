import { describe, expect, it } from "vitest";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import type { Working } from "../../packages/sim-core/src/working.js";
import { clubPlan } from "../support/club.js";
import { integrate } from "../support/odex.js";
import { figures, LOCO_PARTS, POSTS } from "../support/oracle.figures.js";
import { type OracleState, oracle } from "../support/oracle.js";
import { profile } from "../support/profiles.js";

// Whole workings against the same equations written down a second time and integrated by the odex library (extrapolation,
// Hairer and Wanner) at 1e-11 a step. Our step is of fourth order between the bends; where a limit takes over or a post
// comes under a coupling within a step it is of second. At 0.05 s that is some 1e-6 of a working, and at an eighth of the
// step some 1e-8: the tolerances are ten times these.
const KEYS = ["s", "v", "y1", "y2", "i1", "Tw", "Tc", "charge_C", "energy_J"] as const;
const pack = (state: OracleState) => KEYS.map((key) => state[key]);
const unpack = (values: number[]) =>
  Object.fromEntries(KEYS.map((key, i) => [key, values[i]])) as unknown as OracleState;
const train = figures();
const model = oracle(train);

/** Standing ready, the wells level at a charge counted from full by the label. */
function ready(charge: number): OracleState {
  const { wells, air_degC } = train;
  const left_C = wells.total_C - (1 - charge) * wells.label_C;
  const temperatures = { Tw: air_degC, Tc: air_degC };
  return {
    s: 0,
    v: 0,
    y1: wells.c * left_C,
    y2: (1 - wells.c) * left_C,
    i1: 0,
    ...temperatures,
    charge_C: 0,
    energy_J: 0,
  };
}

/** On for a time at one lever. */
function forTime(state: OracleState, lever: number, time_s: number, held = false): OracleState {
  const rates = (_: number, y: number[]) => {
    const moving = model.rates(unpack(y), lever);
    return pack(held ? { ...moving, v: 0 } : moving);
  };
  return unpack(integrate(rates, 0, pack(state), time_s));
}

/** The standing rule. */
function leaves(state: OracleState, lever: number): boolean {
  const { grade_N, curve_N } = model.line(state.s);
  return model.pull_N(state, lever) - grade_N > model.starting_N + curve_N;
}

/** Where the driver to a speed wants the lever: what the road takes and a gap closed in 1.5 s, at most 0.15 m/s². */
function wanted(state: OracleState, held: boolean, speed_mps: number): number {
  const { grade_N, curve_N } = model.line(state.s);
  const a = Math.min(Math.max((speed_mps - state.v) / 1.5, -0.3), 0.15);
  const asked_N = model.translating_kg * a + grade_N + curve_N + model.rolling(state.v) + model.air(state.v);
  // Held, nothing speeds up yet.
  if (held) return model.leverFor(state, Math.max(asked_N, 1.05 * (model.starting_N + curve_N) + grade_N), 0);
  return model.leverFor(state, asked_N, a);
}

/** On to a place at one lever, along the line and from coupling to post, where the gradient bends. Gives the time too. */
function toPlace(state: OracleState, lever: number, place_m: number): { state: OracleState; time_s: number } {
  const couplings = [0, 1.6, 3.4, 5.2];
  const bends = POSTS.flatMap(([post]) => couplings.map((coupling) => post + coupling));
  const stops = [...bends.filter((s) => s > state.s && s < place_m).sort((a, b) => a - b), place_m];
  let [from, y] = [state.s, [...pack(state), 0]];
  for (const stop of stops) {
    y = integrate(
      (_, now) => {
        const rates = model.rates(unpack(now), lever);
        return [...pack(rates), 1].map((rate) => rate / now[1]!);
      },
      from,
      y,
      stop,
    );
    from = stop;
  }
  return { state: unpack(y), time_s: y[KEYS.length]! };
}

function expectSame(w: Working, { time_s, ...end }: OracleState & { time_s: number }, within: number, ofSpeed: number) {
  const pairs = [
    [w.time_s, time_s],
    [w.y[at.DRAWN_CHARGE], end.charge_C],
    [w.y[at.DRAWN], end.energy_J],
    [w.y[at.WINDING], end.Tw],
    [w.y[at.CASE], end.Tc],
    [w.y[at.AVAILABLE], end.y1],
    [w.y[at.POLARISATION], end.i1],
  ] as const;
  for (const [got, expected] of pairs) expect(Math.abs(got / expected - 1)).toBeLessThan(within);
  expect(Math.abs(w.y[at.SPEED] / end.v - 1)).toBeLessThan(ofSpeed);
}

describe("a whole working against another integrator", () => {
  // The last post comes under a coupling shortly before the mark, so that the speed there still has the whole of its bend.
  it.each([
    [0.05, 1e-5, 2e-5],
    [0.00625, 1e-7, 1e-7],
  ])("the lever held, over the hill, through both current limits, at %d s", (step_s, within, ofSpeed) => {
    const loco = { ...LOCO_PARTS, controller: { ...LOCO_PARTS.controller, ramp_s: 0 } };
    const limits = new Set<string>();
    const step = ({ now }: Working) => limits.add(now.limitedBy);
    const w = run(clubPlan(profile(POSTS), { lever: 0.95 }, loco), {
      step_s,
      observers: [{ step, event: () => undefined }],
    });
    expect(limits).toEqual(new Set(["lever", "motor_current", "battery_current", "no_load_speed"]));
    const away = forTime(ready(1), 0.95, 3);
    const { state, time_s } = toPlace(away, 0.95, 150);
    expectSame(w, { ...state, time_s: 3 + time_s }, within, ofSpeed);
  });

  it.each([
    [0.05, 1e-5, 2e-5],
    [0.00625, 1e-7, 1e-7],
  ])("a driver to a speed, with a battery on its knee, at %d s", (step_s, within, ofSpeed) => {
    const w = run(clubPlan(profile(POSTS), { speed_mps: 1.5, charge: 0.05 }, LOCO_PARTS), { step_s });
    expect(w.outcome).toBe("completed");
    let state = ready(0.05);
    let [lever, time_s, held] = [0, 0, true];
    for (let look = 0; ; ) {
      const asked = wanted(state, held, 1.5);
      lever = Math.min(Math.max(asked, lever - 0.1 / 2), lever + 0.1 / 2);
      if (held && leaves(state, lever)) held = false;
      // Within a fiftieth of the speed, the lever where it is wanted, the driver looks up every half second.
      const along = !held && lever === asked && Math.abs(state.v - 1.5) <= 1.5 / 50;
      const looks = along ? 5 : 1;
      const next = forTime(state, lever, looks / 10, held);
      if (next.s >= 150) break;
      state = next;
      look += looks;
      time_s = look / 10;
    }
    const { state: end, time_s: rest_s } = toPlace(state, lever, 150);
    expectSame(w, { ...end, time_s: time_s + rest_s }, within, ofSpeed);
  });
});
