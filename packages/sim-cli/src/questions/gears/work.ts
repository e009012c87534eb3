import { gears } from "@rideon/sim-core";
import { planOf } from "../../work/files.js";
import { type Job, stepOf } from "../../work/job.js";
import type { OnProgress } from "../../work/question.js";
import { type GearsInWords, worded } from "./faults.js";

/** @param job tells the teeth of the sprockets to hand; those that shops keep where absent */
export const work = (job: Job<{ teeth?: readonly number[] }>, onProgress: OnProgress): { answer: GearsInWords } => ({
  answer: worded(
    gears(planOf(job), job.own.teeth, {
      ...stepOf(job),
      onTried: (tried, of) => onProgress({ doing: `trying sprockets, ${tried} of ${of} tried` }),
    }),
  ),
});
