import { type WiringAnswer, wiring } from "@rideon/sim-core";
import type { Job } from "../../work/job.js";

export const work = (job: Job): { answer: WiringAnswer } => ({ answer: wiring(job) });
