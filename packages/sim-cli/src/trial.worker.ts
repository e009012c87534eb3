import { parentPort, workerData } from "node:worker_threads";
import { type TrialJob, trialWorked } from "./trial.worked.js";

parentPort?.postMessage(trialWorked(workerData as TrialJob));
