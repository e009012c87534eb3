import type {
  BrakesAnswer,
  GearsAnswer,
  LapsAnswer,
  LocoDefinition,
  MotorTables,
  PlanDefinition,
  RunAnswer,
  TrackColumns,
} from "@rideon/sim-core";
import type { Picture } from "../charts/picture.js";
import type { Progress } from "../words/progress.js";
import { onThread } from "./thread.js";

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

/**
 * Runs the train on a thread of its own, so that an interrupt is heard at once and progress can be shown.
 * @throws RunError, DiskError
 */
export function simulate<S extends Study>(
  job: Job<S>,
  onProgress: (progress: Progress) => void,
): Promise<Simulated<S>> {
  return onThread(new URL("./simulate.worker.js", import.meta.url), job, "simulation", onProgress);
}
