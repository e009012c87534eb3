import { type RunAnswer, runOnce } from "@rideon/sim-core";
import { type Picture, pictureTaker } from "../../charts/picture.js";
import { type Detailed, detailed } from "../../words/events.js";
import { planOf } from "../../work/files.js";
import { type Job, rowTaker, stepOf } from "../../work/job.js";
import type { OnProgress } from "../../work/question.js";

/** One working, and its first lap to be drawn. */
export interface RunWorked {
  answer: Detailed<RunAnswer>;
  picture: Picture;
}

export function work(job: Job, onProgress: OnProgress): RunWorked {
  const rows = rowTaker(job, onProgress);
  const picture = pictureTaker();
  const answer = detailed(
    runOnce(planOf(job), {
      ...stepOf(job),
      every_s: job.every_s,
      onRow(row) {
        rows.row(row);
        picture.row(row);
      },
    }),
  );
  rows.end();
  return { answer, picture: picture.taken() };
}
