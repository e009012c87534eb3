import { expect, it } from "vitest";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import type { Plan } from "../../packages/sim-core/src/train/plan.js";
import { CIRCUIT, clubPlan } from "../support/club.js";

// Law: when the driver looks up is the driver's own affair. Steps as long as the time between two looks, and any part of it,
// are the same day but for the error of the step: events fall in the same places, and the books close. That error is of fourth
// order as long as it is seen; of the shorter steps what the drive's bends leave, each found to a 64th of a step.

const HALT = { ...CIRCUIT, place: CIRCUIT.place.map((_, i) => (i === 3 ? "Halt" : "")) };
const stops = [{ place: "Halt", dwell_s: 5 }];

const plans: [string, Plan][] = [
  ["to a speed", clubPlan(CIRCUIT, { speed_mps: 1.6, laps: 3 })],
  ["at one lever", clubPlan(CIRCUIT, { lever: 0.8, laps: 3 })],
  ["to stops, with brakes", clubPlan(HALT, { speed_mps: 1.8, stops, laps: 2 }, { brakes: [{ rail_force_N: 300 }] })],
];

it.each(plans)("%s: a step of half a second, and any part of it, tell the same day", (_, plan) => {
  const fine = runOnce(plan, { step_s: 0.02 });
  expect(fine.outcome).toBe("completed");
  for (const [step_s, within] of [
    [0.5, 3e-5],
    [0.25, 3e-6],
    [0.17, 2e-6],
    [0.1, 2e-6],
  ] as const) {
    const coarse = runOnce(plan, { step_s });
    expect(coarse.events.map(({ kind }) => kind)).toEqual(fine.events.map(({ kind }) => kind));
    for (const [i, { time_s }] of coarse.events.entries())
      expect(Math.abs(time_s - fine.events[i].time_s)).toBeLessThan(within * fine.time_s);
    for (const figure of ["time_s", "energy_Wh", "state_of_charge_end", "rms_motor_current_A"] as const)
      expect(Math.abs(coarse[figure] / fine[figure] - 1)).toBeLessThan(within);
    expect(Math.abs(coarse.energy_balance.residual_share)).toBeLessThan(within);
  }
});
