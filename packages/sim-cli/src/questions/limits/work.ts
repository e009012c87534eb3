import { type LimitsAnswer, limits } from "@rideon/sim-core";
import type { Job } from "../../work/job.js";
import type { OnProgress } from "../../work/question.js";

const DOING = {
  restart: "starting it again on the steepest bit",
  stopping: "stopping it from everywhere",
  working: "running it all day",
  speeds: "looking for the speed of every stretch",
  parted: "parting its couplings",
} as const;

/** @param job tells the sight distance to judge by; 20 m where absent */
export function work(job: Job<{ sight_m?: number }>, onProgress: OnProgress): { answer: LimitsAnswer } {
  const { sight_m } = job.own;
  const answer = limits(job, {
    ...(sight_m === undefined ? {} : { sight_m }),
    onPart: (what) => onProgress({ doing: DOING[what] }),
  });
  return { answer };
}
