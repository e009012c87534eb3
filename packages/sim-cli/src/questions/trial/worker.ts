import { workerData } from "node:worker_threads";
import { work } from "../../work/thread.js";
import { type TrialJob, trialWorked } from "./work.js";

work(() => trialWorked(workerData as TrialJob));
