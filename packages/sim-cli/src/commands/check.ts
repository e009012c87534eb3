import { check as worked } from "@rideon/sim-core";
import type { PlanFlags } from "../options.js";
import { checkInWords } from "../write/check.words.js";
import { answered } from "./answered.js";
import { openPlan } from "./opened.js";

/** What the files come to before anything runs. @returns the exit status */
export const check = async (path: string, flags: PlanFlags): Promise<number> =>
  answered(await openPlan(path, flags), flags, {
    command: "check",
    work: ({ plan }) => worked(plan),
    inWords: checkInWords,
  });
