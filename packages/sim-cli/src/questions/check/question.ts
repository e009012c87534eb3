import { check as worked } from "@rideon/sim-core";
import { answered } from "../../work/answered.js";
import { openPlan } from "../../work/opened.js";
import type { PlanFlags } from "../../work/options.js";
import { checkInWords } from "./words.js";

/** What the files come to before anything runs. @returns the exit status */
export const check = async (path: string, flags: PlanFlags): Promise<number> =>
  answered(await openPlan(path, flags), flags, {
    command: "check",
    work: ({ plan }) => worked(plan),
    inWords: checkInWords,
  });
