import { workerData } from "node:worker_threads";
import { work } from "./thread.js";
import { type TrialJob, trialWorked } from "./trial.worked.js";

work(() => trialWorked(workerData as TrialJob));
