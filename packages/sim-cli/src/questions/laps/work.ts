import { type LapsAnswer, laps } from "@rideon/sim-core";
import { planOf } from "../../work/files.js";
import { type Job, rowTaker, stepOf } from "../../work/job.js";
import type { OnProgress } from "../../work/question.js";

export function work(job: Job, onProgress: OnProgress): { answer: LapsAnswer } {
  const rows = rowTaker(job, onProgress);
  const answer = laps(planOf(job), { ...stepOf(job), every_s: job.every_s, onRow: rows.row });
  rows.end();
  return { answer };
}
