import { type Notes, shown } from "../errors.js";
import type { Train } from "./train.js";

/** Nothing in a motor follows its load within less: even a small winding takes half a minute, s. */
const QUICKEST_s = 1;

/** What no bound on a single key keeps out: figures that together make a motor no step could carry, and that cannot be. */
export function refuseImpossible({ heat }: Train, notes: Notes): void {
  if (notes.problems.length > 0) return;
  const { winding_JpK, case_JpK, windingToCase_KpW: inner_KpW, caseToAir_KpW: outer_KpW } = heat;
  for (const [what, time_s] of [
    ["winding", winding_JpK * inner_KpW],
    ["case", (case_JpK * inner_KpW * outer_KpW) / (inner_KpW + outer_KpW)],
  ] as const) {
    if (time_s >= QUICKEST_s) continue;
    const found = `by these figures the ${what} would follow its load within ${shown(time_s, "s")}`;
    const message = `${found}; it takes a motor minutes: check mass, heat capacities and thermal resistances`;
    notes.problems.push({ path: "loco.motor.heat", message });
  }
}
