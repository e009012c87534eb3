import { describe, expect, test } from "vitest";
import { laps, limits, runOnce, SWEPT, type Swept, sweptCase } from "../../packages/sim-core/src/index.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { filesOf } from "../support/club.js";
import { profile } from "../support/profiles.js";

const BRAKED = filesOf({ brakes: [{ rail_force_N: 400 }] });
const LINE = profile([
  [0, 0],
  [60, 0.5],
  [120, 0],
]);
const SHORT: PlanFiles = { ...BRAKED, track: LINE, plan: { ...BRAKED.plan, charge: 0.55 } };
const planOf = ({ plan, loco, track }: PlanFiles) => createPlan(plan, loco, track);
const withPlan = (plan: Partial<PlanFiles["plan"]>, of: PlanFiles = SHORT): PlanFiles => ({
  ...of,
  plan: { ...of.plan, ...plan },
});
const shortOf = (files: PlanFiles, ...asked: Swept[]) => sweptCase(files, asked).short;

describe("a case falls short", () => {
  test("by as many as are aboard beyond the most that may ride, and may not carry them", () => {
    const { most_aboard } = limits(SHORT);
    const aboard = (passengers: number) => sweptCase(withPlan({ passengers }), ["limits"]);
    expect(most_aboard).toBeGreaterThan(0);
    expect(aboard(most_aboard)).toMatchObject({ short: [], figures: { may_carry: true } });
    const beyond = aboard(most_aboard + 2);
    expect(beyond.figures).toMatchObject({ most_aboard, may_carry: false });
    expect(beyond.short).toContain("too_many_aboard:2");
    expect(beyond.short).not.toContain("may_carry");
  });
  test("by those whom a stop takes aboard as well", () => {
    const { most_aboard } = limits(SHORT);
    const stop = (passengers: number) => [{ place: "Top", dwell_s: 10, passengers }];
    const track = { ...LINE, place: ["", "Top", ""] };
    const stopping: PlanFiles = { ...SHORT, track };
    expect(shortOf(withPlan({ passengers: 1, stops: stop(most_aboard + 3) }, stopping), "limits")).toContain(
      "too_many_aboard:3",
    );
    expect(shortOf(withPlan({ passengers: 1, stops: stop(8) }, stopping), "laps")).toContain("beyond_seats:2");
  });
  test("by those beyond its seats, whatever is asked", () => {
    for (const question of SWEPT)
      expect([question, shortOf(withPlan({ passengers: 8 }), question)]).toEqual([
        question,
        expect.arrayContaining(["beyond_seats:2"]),
      ]);
    expect(shortOf(withPlan({ passengers: 6 }), "run", "climb")).toEqual([]);
  });
  test("by a winding that its working or its day takes over its class", () => {
    const small = { ...SHORT.loco.motor, heat: { mass_kg: 0.3, insulation: "A" as const, continuous_current_A: 10 } };
    const day = withPlan({ laps: 20, air_temperature_degC: 35 });
    const hot: PlanFiles = { ...day, loco: { ...day.loco, motor: small } };
    const run = runOnce(planOf(hot));
    expect(run.over_temperature_at_s).not.toBeNull();
    expect(shortOf(hot, "run")).toContain("winding_over_class");
    expect(laps(planOf(hot)).events.map(({ kind }) => kind)).toContain("too_hot");
    expect(shortOf(hot, "laps")).toContain("winding_over_class");
    expect(runOnce(planOf(SHORT)).over_temperature_at_s).toBeNull();
    expect(shortOf(SHORT, "run", "laps")).toEqual([]);
  });
  test("by a battery that begins below its reserve", () => {
    expect(shortOf(withPlan({ charge: 0.3 }), "laps")).toContain("begins_below_reserve");
    expect(shortOf(withPlan({ charge: 0.5 }), "laps")).not.toContain("begins_below_reserve");
  });
  test("by a battery that goes below its reserve before the laps or the hours are done", () => {
    const { laps_to_reserve } = laps(planOf(SHORT));
    const far = withPlan({ laps: laps_to_reserve + 1 });
    expect(shortOf(far, "laps")).toEqual(["goes_below_reserve"]);
    expect(shortOf(withPlan({ laps: laps_to_reserve }), "laps")).toEqual([]);
    expect(runOnce(planOf(withPlan({ laps: laps_to_reserve + 1 }))).state_of_charge_end).toBeLessThan(0.5);
    expect(shortOf(far, "run")).toEqual(["goes_below_reserve"]);
    expect(shortOf(withPlan({ laps: laps_to_reserve + 1, charge: 0.3 }), "run")).not.toContain("goes_below_reserve");
  });
  test("by a survey that is too rough to act on, whatever is asked", () => {
    const rough = { ...SHORT, track: { ...SHORT.track, sineDoubt: SHORT.track.distance_m.map(() => 0.01) } };
    expect(shortOf(rough, "run")).toEqual(["survey_good_enough"]);
  });
});

describe("a case that does not get round", () => {
  const STUCK = withPlan({ passengers: 40 });
  test("is told as what it came to within limits, and no charge is blamed", () => {
    expect(limits(STUCK)).toMatchObject({ charge_lasts: false, day_outcome: runOnce(planOf(STUCK)).outcome });
    const { outcome, short, figures } = sweptCase(STUCK, ["limits"]);
    expect(["stalled", "slipping"]).toContain(outcome);
    expect(short[0]).toBe(outcome);
    expect(short).not.toContain("charge_lasts");
    expect(figures["charge_lasts"]).toBeNull();
  });
  test("ends in one word, whichever of its questions is asked", () => {
    const small = { ...SHORT.loco.wiring, breaker: { rating_A: 3, curve: "C" as const } };
    const trips: PlanFiles = { ...SHORT, loco: { ...SHORT.loco, wiring: small } };
    for (const asked of [["run"], ["laps"], ["run", "laps"], ["limits"]] as const)
      expect(sweptCase(trips, asked)).toMatchObject({ outcome: "tripped" });
    expect(shortOf(trips, "laps")).toContain("tripped");
  });
});

describe("a case that does not stop or start", () => {
  const STEEP = profile([
    [0, 0],
    [100, 20],
    [200, 40],
  ]);
  const DOWN: PlanFiles = {
    ...SHORT,
    track: profile([
      [0, 0],
      [100, -6],
      [200, -12],
    ]),
    plan: { ...SHORT.plan, track: { ...SHORT.plan.track, kind: "end-to-end" } },
  };
  const weak = (loco: Partial<PlanFiles["loco"]>): PlanFiles => ({ ...DOWN, loco: { ...DOWN.loco, ...loco } });
  test("cannot be stopped where its brake is too weak, and runs away with none", () => {
    const { short, figures } = sweptCase(weak({ brakes: [{ rail_force_N: 20 }] }), ["brakes"]);
    expect(figures).toMatchObject({
      stops_m: null,
      runs_on_m: null,
      stops_in_sight: false,
      with_no_brake: "runs away",
    });
    expect(short).toEqual(["cannot_be_stopped", "runs_away_unbraked"]);
    const { brakes: _, ...bare } = DOWN.loco;
    expect(shortOf({ ...DOWN, loco: bare }, "brakes")).toEqual(["no_brake", "runs_away_unbraked"]);
  });
  test("is told to stop beyond sight where it does, with what it would do unbraked", () => {
    const gentle = profile([
      [0, 0],
      [200, -4],
      [400, -8],
    ]);
    const slow: PlanFiles = { ...weak({ brakes: [{ rail_force_N: 70 }] }), track: gentle };
    const { short, figures } = sweptCase(slow, ["brakes"]);
    expect(figures["stops_m"]).toBeGreaterThan(20);
    expect(short).toEqual(["stops_in_sight", "runs_away_unbraked"]);
  });
  test("does not restart even empty", () => {
    const up: PlanFiles = { ...DOWN, track: STEEP };
    const { short, figures } = sweptCase(up, ["climb"]);
    expect(figures).toMatchObject({ passengers_it_can_restart: null, restarts: false });
    expect(short).toContain("restarts_not_even_empty");
    expect(short).not.toContain("restarts");
  });
  test("where a brake stops it, is not blamed for what it would do with none", () => {
    const { short, figures } = sweptCase(SHORT, ["brakes"]);
    expect(figures["stops_in_sight"]).toBe(true);
    expect(short).toEqual([]);
  });
});
