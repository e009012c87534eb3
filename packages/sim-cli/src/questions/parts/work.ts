import { type PartsAnswer, parts } from "@rideon/sim-core";
import type { Job } from "../../work/job.js";

export const work = (job: Job): { answer: PartsAnswer } => ({ answer: parts(job) });
