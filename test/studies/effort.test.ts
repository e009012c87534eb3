import { describe, expect, it } from "vitest";
import { runningGradient } from "../../packages/sim-core/src/drive/climbing.js";
import { cold } from "../../packages/sim-core/src/studies/climb/climb.js";
import { type EffortRow, tractiveEffort } from "../../packages/sim-core/src/studies/climb/effort.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import { clubPlan, LOCO } from "../support/club.js";
import { level } from "../support/profiles.js";

const RULING = 1 / 60;

/** A motor without drag, brushes or fluxing heat, so that its pull can be worked out by hand. */
const IDEAL = {
  motor: { constants: { resistance_ohm: 0.14, torque_constant_NmpA: 0.075 }, heat: { mass_kg: 6 } },
  controller: { ...LOCO.controller, motor_current_limit_A: 30 },
};

/** A force of the diagram at a speed, read off between its rows. */
function readOff(rows: readonly EffortRow[], speed_mps: number, name: keyof EffortRow): number {
  const i = Math.max(
    1,
    rows.findIndex((row) => row.speed_mps >= speed_mps),
  );
  const [before, after] = [rows[i - 1]!, rows[i]!];
  const share = (speed_mps - before.speed_mps) / (after.speed_mps - before.speed_mps);
  return before[name] + share * (after[name] - before[name]);
}

describe("the tractive effort diagram", () => {
  it("starts at the limit's torque times ratio and efficiency over the wheel's radius (textbook of traction)", () => {
    const effort = tractiveEffort(clubPlan(undefined, {}, IDEAL), RULING);
    const expected_N = (30 * 0.075 * (45 / 11) * (30 / 12) * 0.96 ** 2) / 0.0825;
    expect(effort.rows[0]?.pull_cold_N).toBeCloseTo(expected_N, 6);
    // Without magnets that weaken, heat takes nothing from a limited current.
    expect(effort.rows[0]?.pull_hot_N).toBeCloseTo(expected_N, 6);
  });

  it("never pulls more at a higher speed, and what the line takes never falls with it", () => {
    const { rows } = tractiveEffort(clubPlan(), RULING);
    rows.slice(1).forEach((row, i) => {
      const before = rows[i]!;
      expect(row.pull_cold_N).toBeLessThanOrEqual(before.pull_cold_N + 1e-9);
      expect(row.pull_hot_N).toBeLessThanOrEqual(before.pull_hot_N + 1e-9);
      expect(row.level_N).toBeGreaterThanOrEqual(before.level_N);
    });
  });

  it("differs between gradients by the weight of the train down them", () => {
    const plan = clubPlan();
    const { rows, restart_gradient_percent } = tractiveEffort(plan, RULING);
    const weight_N = plan.train.mass_kg * 9.80665;
    for (const row of rows) {
      expect(row.ruling_N - row.level_N).toBeCloseTo(weight_N * RULING, 6);
      expect(row.restart_N - row.level_N).toBeCloseTo((weight_N * restart_gradient_percent) / 100, 6);
    }
  });

  it("crosses where it says that the train runs", () => {
    const { rows, level_speed_mps, ruling_speed_mps, ruling_speed_hot_mps } = tractiveEffort(clubPlan(), RULING);
    for (const [speed_mps, pull, needed] of [
      [level_speed_mps, "pull_cold_N", "level_N"],
      [ruling_speed_mps, "pull_cold_N", "ruling_N"],
      [ruling_speed_hot_mps, "pull_hot_N", "ruling_N"],
    ] as const) {
      // Rows lie 1/120 of the picture apart: the chord across a bend is off by less than 1 % of the pull there.
      expect(readOff(rows, speed_mps, pull)).toBeCloseTo(readOff(rows, speed_mps, needed), -1);
    }
  });

  it("runs on the level as fast as a working with the lever open ends up running, but for the warming motor", () => {
    const plan = clubPlan(level(400), { lever: 1, laps: 1 });
    const { level_speed_mps } = tractiveEffort(plan, 0);
    const ran = runOnce(plan);
    // Cold and full at first: the top speed is reached before the battery has sunk or the magnets weakened much.
    expect(Math.abs(ran.top_speed_mps / level_speed_mps - 1)).toBeLessThan(0.02);
  });

  it("shows nothing to run at where a gradient is steeper than any it climbs", () => {
    const plan = clubPlan();
    const steepest = runningGradient(plan.train, cold(plan)).sine;
    expect(tractiveEffort(plan, 1.01 * steepest).ruling_speed_mps).toBe(0);
    expect(tractiveEffort(plan, 0.99 * steepest).ruling_speed_mps).toBeGreaterThan(0);
  });
});
