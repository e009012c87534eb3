import { expect, it } from "vitest";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import type { Plan } from "../../packages/sim-core/src/train/plan.js";
import { clubPlan, LOCO } from "../support/club.js";
import { slope } from "../support/profiles.js";

// Law: the step is of fourth order. On a run without bends (one slope, one lever, no limit reached) half the step leaves a
// sixteenth of the error; the next order's share shows as a few percent of that, less at each halving.
const WATCHED = {
  position: at.POSITION,
  speed: at.SPEED,
  "charge drawn": at.DRAWN_CHARGE,
  "energy drawn": at.DRAWN,
  "copper loss": at.COPPER,
  "motor drag": at.MOTOR_DRAG,
  air: at.AIR,
} as const;

const plan: Plan = clubPlan(
  slope(0.005),
  { lever: 0.5, cars: [], passengers: 0, duration_s: 3, track: { kind: "end-to-end" } },
  {
    mass_kg: 60,
    wheels: { ...LOCO.wheels, wheelset_inertia_kgm2: 0.005 },
    motor: { ...LOCO.motor, inertia_kgm2: 0.001 },
    controller: { motor_current_limit_A: 1000, ramp_s: 0 },
  },
);
const end = (step_s: number) => run(plan, { step_s, start: { chainage_m: 50, speed_mps: 0.8 } }).y;

it.each(Object.entries(WATCHED))("halving the step cuts the error of %s sixteenfold", (_, i) => {
  const exact = end(0.1 / 64)[i];
  const [whole, half, quarter] = [0.05, 0.025, 0.0125].map((step_s) => Math.abs(end(step_s)[i] - exact));
  expect(whole / half).toBeGreaterThan(15);
  expect(whole / half).toBeLessThan(19);
  expect(half / quarter).toBeGreaterThan(15.5);
  expect(half / quarter).toBeLessThan(17.5);
});
