import { type PartsAnswer, type PlanFiles, parts } from "@rideon/sim-core";
import type { Job } from "../../work/job.js";

/** @param job tells the files of another loco in the same working, where one is to be held beside it */
export const work = (job: Job<{ beside?: PlanFiles }>): { answer: PartsAnswer } => ({
  answer: parts(job, job.own.beside),
});
