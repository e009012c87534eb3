import { Worker } from "node:worker_threads";
import {
  type BrakesAnswer,
  type GearsAnswer,
  type LapsAnswer,
  type LocoDefinition,
  type MotorTables,
  type PlanDefinition,
  type RunAnswer,
  RunError,
  type TrackColumns,
} from "@rideon/sim-core";
import { DiskError } from "./write/files.js";
import type { Picture } from "./write/picture.js";
import type { Progress } from "./write/progress.js";

/** The questions that are answered by running the train. */
export interface Answers {
  run: RunAnswer;
  laps: LapsAnswer;
  gears: GearsAnswer;
  brakes: BrakesAnswer;
}
export type Study = keyof Answers;

/** What to run, as the files have it, and what to note down on the way. */
export interface Job<S extends Study = Study> {
  study: S;
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables: MotorTables;
  /** Of `gears`: teeth of the sprockets to hand, those that shops keep where absent. */
  teeth?: readonly number[] | undefined;
  /** Of `brakes`: the sight distance to judge by, 20 m where absent. */
  sight_m?: number | undefined;
  /** Chosen by the program where absent. */
  step_s?: number | undefined;
  every_s: number;
  /** An open file for the trace. */
  trace?: { file: number; path: string } | undefined;
}

export interface Simulated<S extends Study> {
  answer: Answers[S];
  /** The first lap, to be drawn; empty where many workings were tried. */
  picture: Picture;
}

export type Message =
  | { kind: "progress"; progress: Progress }
  | { kind: "done"; answer: Answers[Study]; picture: Picture }
  | { kind: "failed"; name: string; message: string; stack: string | undefined };

/**
 * Runs the train on a thread of its own, so that an interrupt is heard at once and progress can be shown.
 * @throws RunError, DiskError
 */
export function simulate<S extends Study>(
  job: Job<S>,
  onProgress: (progress: Progress) => void,
): Promise<Simulated<S>> {
  const worker = new Worker(new URL("./simulate.worker.js", import.meta.url), { workerData: job });
  return new Promise((resolve, reject) => {
    worker.on("message", (message: Message) => {
      if (message.kind === "progress") onProgress(message.progress);
      else if (message.kind === "done") resolve(message as unknown as Simulated<S>);
      else reject(revived(message));
    });
    worker.on("error", reject);
    worker.on("exit", (status) => reject(new RunError(`the simulation ended by itself (${status})`)));
  });
}

/** Errors lose their class between threads. */
function revived({ name, message, stack }: Extract<Message, { kind: "failed" }>): Error {
  if (name === "RunError") return new RunError(message);
  if (name === "DiskError") return new DiskError(message);
  return Object.assign(new Error(message), { name, stack });
}
