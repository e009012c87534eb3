import type { Opened, Ready } from "../words/ready.js";
import type { Asked, Worked } from "./asking.js";
import type { AskedFlags } from "./flags.js";
import { PLAN_ARGUMENT, type Question } from "./question.js";

/** Makes a question of what is its own. */
export function asked<F extends AskedFlags, W extends Worked, R extends Ready = Opened>(own: Asked<F, W, R>): Question {
  const { name, about, inFull, example, options, work } = own;
  // The way from files to words is loaded by whoever asks: threads and the help do without.
  const answer = async (path: string, flags: object) => (await import("./answered.js")).answered(own, path, flags as F);
  return { name, about, inFull, example, options, argument: PLAN_ARGUMENT, answer, ...(work && { work }) };
}
