import { Worker } from "node:worker_threads";
import { RunError } from "@rideon/sim-core";
import type { Diagnostic } from "./read/diagnostics.js";
import type { TrialJob, TrialWorked } from "./trial.worked.js";

/**
 * Works out a trial on a thread of its own, so that an interrupt is heard at once.
 * @returns what was worked out, or what is wrong with the filled sheet
 * @throws RunError where it could not be finished
 */
export function trialOnThread(job: TrialJob): Promise<TrialWorked | Diagnostic[]> {
  const worker = new Worker(new URL("./trial.worker.js", import.meta.url), { workerData: job });
  return new Promise((resolve, reject) => {
    worker.on("message", resolve);
    worker.on("error", reject);
    worker.on("exit", (status) => reject(new RunError(`the trial ended by itself (${status})`)));
  });
}
