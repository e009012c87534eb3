import { expect, it } from "vitest";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import { clubPlan, LOCO } from "../support/club.js";
import { level } from "../support/profiles.js";

// With a lever that moves at once and does not move the train, the working is over before its first step.
it("a run that stalls at once has its extremes at that instant", () => {
  const plan = clubPlan(level(300), { lever: 0.05 }, { controller: { ...LOCO.controller, ramp_s: 0 } });
  const rows: number[] = [];
  const answer = runOnce(plan, { onRow: (row) => rows.push(row.motor_current_A) });
  expect([answer.outcome, answer.time_s]).toEqual(["stalled", 0]);
  expect(answer.peak_motor_current_A).toBeCloseTo(answer.stall!.motor_current_A, 12);
  expect(answer.peak_motor_current_A).toBeGreaterThan(1);
  expect(answer.peak_battery_current_A).toBeCloseTo(answer.stall!.battery_current_A, 12);
  expect(answer.lowest_battery_voltage_V).toBeLessThan(25.3);
  expect(answer.lowest_battery_voltage_V).toBeGreaterThan(25);
  expect(answer.peak_winding_temperature_C).toBe(15);
  expect(answer.least_margins.grip_N?.value).toBeGreaterThan(0);
  expect(rows).toEqual([answer.peak_motor_current_A]);
});
