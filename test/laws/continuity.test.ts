import { describe, expect, it } from "vitest";
import { throughMeshes_N } from "../../packages/sim-core/src/drive/meshes.js";
import { motion } from "../../packages/sim-core/src/motion.js";
import * as at from "../../packages/sim-core/src/state.js";
import { startWorking, type Working } from "../../packages/sim-core/src/working.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";

// Law: within one mode the derivative bends but never jumps. At each bend the two neighbouring floating-point numbers on
// either side of it are found by halving; what the derivative differs by there is rounding.
const ROUNDING = 1e-12;

type Label = (w: Working) => unknown;

/** The club train running forwards under its lever, or whatever `change` makes of it. */
function running(change: (w: Working) => void = () => undefined, controller: Partial<typeof LOCO.controller> = {}) {
  const w = startWorking(clubPlan(CIRCUIT, { charge: 0.9 }, { controller: { ...LOCO.controller, ...controller } }), {
    chainage_m: 80,
    speed_mps: 1,
  });
  w.lever = 0.8;
  w.mode.powered = true;
  change(w);
  return w;
}

/** Halves from `low` to `high` in one place of the state to where the label changes, and compares both sides. */
function expectNoJump(w: Working, place: number, low: number, high: number, label: Label): [unknown, unknown] {
  const at_ = (value: number) => {
    w.y[place] = value;
    if (place === at.SPEED) w.y[at.RIM_SPEED] = value;
    const dydt = new Float64Array(at.SIZE);
    motion(w, dydt, w.y, w.time_s);
    return { dydt, label: label(w) };
  };
  const first = at_(low).label;
  expect(at_(high).label).not.toEqual(first);
  let [below, above] = [low, high];
  for (let middle = (below + above) / 2; middle > below && middle < above; middle = (below + above) / 2) {
    if (at_(middle).label === first) below = middle;
    else above = middle;
  }
  const [one, other] = [at_(below), at_(above)];
  for (let i = 0; i < at.SIZE; i++) {
    const jump = Math.abs(one.dydt[i] - other.dydt[i]);
    expect(jump).toBeLessThanOrEqual(ROUNDING * Math.max(1, Math.abs(one.dydt[i])));
  }
  return [one.label, other.label];
}

const fullLever = (w: Working) => {
  w.lever = 1;
};
const lagging = (w: Working) => {
  w.mode.wheels = -1;
};
const followingWind = (w: Working) => {
  w.wind_mps = -1;
};
const rollingBack = (w: Working) => {
  w.mode.train = -1;
  w.mode.rim = -1;
  w.lever = 0.1;
};
const brakeHalf = (w: Working) => {
  w.lever = -0.5;
  w.mode.braking = true;
};
const flux = (w: Working) => w.train.motor;

describe("the derivative does not jump where", () => {
  it.each([
    ["motor_current", "lever", running(undefined, { battery_current_limit_A: 500 }), 0.2, 2],
    ["motor_current", "battery_current", running(fullLever), 0.5, 1.6],
    ["battery_current", "duty", running(fullLever), 1.7, 2.2],
    ["lever", "no_load_speed", running(), 1.5, 4],
    ["plugging", "motor_current", running(rollingBack), -3, -0.5],
    ["no_load_speed", "lever", running(brakeHalf, { electric_brake: "rheostatic" }), 0.3, 3],
    [
      "no_load_speed",
      "lever",
      running(brakeHalf, { electric_brake: "regenerative", regen_current_limit_A: 8 }),
      0.3,
      1,
    ],
    [
      "lever",
      "battery_current",
      running(brakeHalf, { electric_brake: "regenerative", regen_current_limit_A: 8 }),
      1,
      3,
    ],
  ] as const)("%s gives way to %s", (slower, faster, w, low, high) => {
    expect(expectNoJump(w, at.SPEED, low, high, (now) => now.now.limitedBy)).toEqual([slower, faster]);
  });
  it("the brushes reach their full drop", () =>
    expectNoJump(running(), at.SPEED, 1.5, 2.2, (w) => w.now.motor_A < flux(w).current_A[1]));
  it.each([
    ["first", 0],
    ["second", 1],
  ])("what passes through the %s mesh turns round, gripping and sliding", (_, mesh) => {
    const driven = (w: Working) => {
      const { turning_kg, efficiency } = w.train.meshes;
      const a = w.now.rimAcceleration_mps2;
      const second_N = throughMeshes_N({ turning_kg, efficiency: efficiency.slice(0, 1) }, w.now.shaft_N, a, 1);
      return [w.now.shaft_N - turning_kg[0]! * a, second_N - turning_kg[1]! * a][mesh]! < 0;
    };
    expectNoJump(running(), at.SPEED, 1.5, 2.2, driven);
    const strong = { motor_current_limit_A: 300, battery_current_limit_A: 300 };
    expectNoJump(running(lagging, strong), at.RIM_SPEED, 0, 2, driven);
  });
  it("a coupling passes a post", () => {
    for (const coupling of [0, 1.6, 3.4, 5.2]) {
      const post_m = 110 + coupling;
      expectNoJump(running(), at.POSITION, post_m - 0.5, post_m + 0.4, (w) => w.y[at.POSITION] >= post_m);
    }
  });
  it("the head passes from lap to lap", () =>
    expectNoJump(running(), at.POSITION, 239, 240.7, (w) => w.y[at.POSITION] >= 240));
  it("the battery comes to its knee, and to a knot of its rested volts", () => {
    const { availableFull_C: full_C, battery } = running().train;
    const fuller = (fill: number) => (w: Working) => w.y[at.AVAILABLE] / full_C < fill;
    expectNoJump(running(), at.AVAILABLE, 0.1 * full_C, 0.2 * full_C, fuller(0.15));
    // Level wells that have lost half the label's charge.
    const half = 1 - (0.5 * battery.label_C) / battery.wells_C;
    expectNoJump(running(), at.AVAILABLE, 0.4 * full_C, 0.6 * full_C, fuller(half));
  });
  it("the air's force turns round", () =>
    expectNoJump(running(followingWind), at.SPEED, 0.7, 1.2, (w) => w.y[at.SPEED] < 1));
});
