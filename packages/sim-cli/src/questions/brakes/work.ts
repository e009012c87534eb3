import { type BrakesAnswer, brakes, type Plan, runOnce } from "@rideon/sim-core";
import { type Picture, pictureTaker } from "../../charts/picture.js";
import { planOf } from "../../work/files.js";
import { type Job, stepOf } from "../../work/job.js";
import type { OnProgress } from "../../work/question.js";
import { SET } from "./sets.js";

/** Stops from everywhere, and the lap they are drawn along where a picture is wanted. */
export interface BrakesWorked {
  answer: BrakesAnswer;
  picture: Picture | undefined;
}

/** @param job tells the sight distance to judge by; 20 m where absent */
export function work(job: Job<{ sight_m?: number }>, onProgress: OnProgress): BrakesWorked {
  const plan = planOf(job);
  const { sight_m } = job.own;
  const answer = brakes(plan, {
    ...(sight_m === undefined ? {} : { sight_m }),
    ...stepOf(job),
    onCase: (set, rail) => onProgress({ doing: `stopping it from everywhere: ${SET[set]}, ${rail} rail` }),
  });
  return { answer, picture: job.drawn ? lapDriven(plan) : undefined };
}

/** The line is drawn as a lap meets it, there and back where it has ends. */
function lapDriven(plan: Plan): Picture {
  const taker = pictureTaker();
  runOnce(plan, { every_s: 0.5, onRow: taker.row });
  return taker.taken();
}
