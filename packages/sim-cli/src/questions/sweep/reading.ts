import { needsNoDrive } from "@rideon/sim-core";
import { type Reading, readPlan, type ShortSet } from "../../read/index.js";
import { DRIVE } from "../../work/opened.js";
import type { Sweep } from "./grid.js";

/** The files of a case, as the question that is asked reads them: what `size` alone is asked of may lack a drive. @throws ReadError, UsageError */
export const readCase = (
  { plan, asked }: Pick<Sweep, "plan" | "asked">,
  sets: readonly (string | ShortSet)[],
): Reading => readPlan(plan, { sets, ...(needsNoDrive(asked) && { without: DRIVE }) });
