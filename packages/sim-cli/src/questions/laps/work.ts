import { type LapsAnswer, laps } from "@rideon/sim-core";
import { type Detailed, detailed } from "../../words/events.js";
import { planOf } from "../../work/files.js";
import { type Job, rowTaker, stepOf } from "../../work/job.js";
import type { OnProgress } from "../../work/question.js";

export function work(job: Job, onProgress: OnProgress): { answer: Detailed<LapsAnswer> } {
  const rows = rowTaker(job, onProgress);
  const answer = detailed(laps(planOf(job), { ...stepOf(job), every_s: job.every_s, onRow: rows.row }));
  rows.end();
  return { answer };
}
