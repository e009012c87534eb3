import { type Notes, shown } from "./errors.js";
import type { Train } from "./train.js";

/** Nothing in a motor follows its load within less: even a small winding takes half a minute, s. */
const QUICKEST_s = 1;
/** The largest motor that a ride-on loco could carry, turning as slowly as a watermill, N m/A: common sense, no source. */
const STRONGEST_NmpA = 10;

/**
 * What no bound on a single key can keep out: figures that together make a motor that cannot be, and that no step could
 * carry.
 */
export function refuseImpossible({ heat, motor }: Train, notes: Notes): void {
  if (notes.problems.length > 0) return;
  const refuse = (path: string, message: string) => void notes.problems.push({ path, message });
  const winding_s = heat.winding_JpK * heat.windingToCase_KpW;
  const case_s =
    (heat.case_JpK * heat.windingToCase_KpW * heat.caseToAir_KpW) / (heat.windingToCase_KpW + heat.caseToAir_KpW);
  for (const [what, time_s] of [
    ["winding", winding_s],
    ["case", case_s],
  ] as const) {
    if (time_s >= QUICKEST_s) continue;
    const message = `by these figures the ${what} would follow its load within ${shown(time_s, "s")}; it takes a motor minutes: check mass, heat capacities and thermal resistances`;
    refuse("loco.motor.heat", message);
  }
  const flux_NmpA = motor.flux_NmpA[motor.flux_NmpA.length - 1];
  if (flux_NmpA <= STRONGEST_NmpA) return;
  refuse(
    "loco.motor",
    `these figures make a torque constant of ${shown(flux_NmpA, "N m/A")}: no such motor turns a loco; check speed, volts and amps`,
  );
}
