import { usualStep_s } from "@rideon/sim-core";
import { answered } from "../../work/answered.js";
import { climbFigures } from "../../work/drawn.js";
import { openPlan } from "../../work/opened.js";
import type { PictureFlags } from "../../work/options.js";
import { worked } from "../../work/worked.js";
import { climbInWords } from "./words.js";

/** With how many aboard the train starts again on the worst place here. @returns the exit status */
export async function climb(path: string, flags: PictureFlags): Promise<number> {
  const opened = await openPlan(path, flags);
  return answered(opened, flags, {
    command: "climb",
    doing: "trying the load table",
    work: ({ reading }, onProgress) => worked("climb", reading, onProgress),
    inWords: climbInWords,
    draw: climbFigures,
    step_s: usualStep_s(opened.plan),
  });
}
