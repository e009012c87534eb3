// A driver of your own: full lever up to the speed, then none, and the brake on where it runs too fast.
import { createPlan, runOnce } from "@rideon/sim-core";
import { loco, plan, track } from "./hazel.js";

/**
 * Looks up every tenth of a second, and says where lever and brake are wanted.
 * @type {import("@rideon/sim-core").Driver}
 */
function allOrNothing({ speed_mps, limit_mps, lever }) {
  if (speed_mps > 1.1 * limit_mps) return { lever: 0, brake: 0.5 };
  const pulls = lever > 0 ? speed_mps < limit_mps : speed_mps < 0.8 * limit_mps;
  return { lever: pulls ? 1 : 0 };
}

for (const options of [{}, { driver: allOrNothing }]) {
  const { time_s, energy_Wh, rms_motor_current_A } = runOnce(createPlan(plan, loco, track), options);
  const who = options.driver ? "all or nothing" : "the plan's driver";
  console.log(`${who}: ${time_s.toFixed(0)} s, ${energy_Wh.toFixed(2)} Wh, ${rms_motor_current_A.toFixed(1)} A rms`);
}
