import { describe, expect, test } from "vitest";
import {
  climb,
  createPlan,
  laps,
  limits,
  runOnce,
  SWEPT,
  SWEPT_FIGURES,
  sweptCase,
} from "../../packages/sim-core/src/index.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { filesOf, LOCO } from "../support/club.js";
import { profile } from "../support/profiles.js";

const BRAKED = filesOf({ brakes: [{ rail_force_N: 400 }] });
const planOf = ({ plan, loco, track }: PlanFiles) => createPlan(plan, loco, track);
const LINE = profile([
  [0, 0],
  [60, 0.5],
  [120, 0],
]);
const SHORT: PlanFiles = { ...BRAKED, track: LINE, plan: { ...BRAKED.plan, charge: 0.55 } };

describe("a case of a sweep", () => {
  test("has the figures that its questions have", () => {
    const { figures, outcome } = sweptCase(SHORT, ["run", "laps", "climb", "limits"]);
    const plan = planOf(SHORT);
    const run = runOnce(plan);
    expect(outcome).toBe("completed");
    expect(figures["energy_Wh"]).toBe(run.energy_Wh);
    expect(figures["peak_motor_current_A"]).toBe(run.peak_motor_current_A);
    expect(figures["laps_to_reserve"]).toBe(laps(plan).laps_to_reserve);
    const withAboard = (passengers: number) => planOf({ ...SHORT, plan: { ...SHORT.plan, passengers } });
    expect(figures["passengers_it_can_restart"]).toBe(climb(plan, withAboard, 8).passengers_it_can_restart);
    const may = limits(SHORT);
    expect(figures["most_aboard"]).toBe(may.most_aboard);
    expect(figures["charge_lasts"]).toBe(may.charge_lasts);
  });
  test("stops as limits has it for those aboard, and falls short where nobody stops it", () => {
    const { stops: rows, loaded: passengers } = limits(SHORT);
    const braked = sweptCase({ ...SHORT, plan: { ...SHORT.plan, passengers } }, ["brakes"]);
    expect(braked.figures["runs_on_m"]).toBeCloseTo(rows.find(({ who }) => who === "nobody")!.distance_m!, 6);
    const bare = sweptCase({ ...SHORT, loco: LOCO }, ["brakes"]);
    expect(bare.figures["stops_m"]).toBeNull();
    expect(bare.short).toEqual(["stops_in_sight"]);
  });
  test("that does not get round says so, and has no energy of a lap", () => {
    const stuck = sweptCase({ ...SHORT, plan: { ...SHORT.plan, passengers: 40 } }, ["run", "climb"]);
    expect(stuck.outcome).not.toBe("completed");
    expect(stuck.figures["energy_Wh"]).toBeNull();
    expect(stuck.figures["restarts"]).toBe(false);
    expect(stuck.short).toContain("restarts");
  });
  test("every figure is told by its question, and by no other", () => {
    expect(new Set(SWEPT_FIGURES.map(({ name }) => name)).size).toBe(SWEPT_FIGURES.length);
    const { figures } = sweptCase(SHORT, SWEPT);
    expect(Object.keys(figures).sort()).toEqual(SWEPT_FIGURES.map(({ name }) => name).sort());
  });
});

// J. B. Gupta, Utilization of Electric Power and Electric Traction, ex. 8.7, p. 244: gears of 71 to 21 on wheels of 0.85 m
// changed to 74 to 19 on 0.90 m. At every motor current the speeds are 0.91915 of what they were, and the pulls 1/0.91915.
describe("gears and wheels against speed and pull", () => {
  const LEVEL = profile([
    [0, 0],
    [400, 0],
  ]);
  const at = (teeth: [number, number], diameter_m: number) =>
    sweptCase(
      {
        ...SHORT,
        track: LEVEL,
        // All but without resistance, and with grip enough, so that the motor alone decides.
        plan: {
          ...BRAKED.plan,
          track: { kind: "circuit", adhesion: 0.6 },
          cars: [],
          passengers: 0,
        },
        loco: {
          ...LOCO,
          wheels: { ...LOCO.wheels, diameter_m },
          resistance: { ...LOCO.resistance, rolling: 0.001, rolling_per_speed_spm: 0, breakaway: 0.001 },
          gears: [{ teeth, efficiency: 1, driven_inertia_kgm2: 0 }],
          controller: { ...LOCO.controller, motor_current_limit_A: 20, battery_current_limit_A: 400 },
        },
      },
      ["climb"],
    ).figures["restart_gradient_percent"] as number;

  test("pull as the published example has it", () => {
    const [before, after] = [at([21, 71], 0.85 / 4), at([19, 74], 0.9 / 4)];
    // Of the pull, a part is rolling resistance: 0.1 % of the weight in both, the stiffest bearings counted.
    const rolling = 100 * 0.001 * 1.5;
    expect(Math.abs((after + rolling) / (before + rolling) - 1 / 0.91915)).toBeLessThan(0.01);
  });
});
