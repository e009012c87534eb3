import type { SheetColumns } from "./columns.js";
import type { CommandOption } from "./options.js";

/** A question that the command line answers: all that the rest of the house knows of it. */
export interface Question {
  name: string;
  /** One line of help. */
  about: string;
  /** What it answers, in full: a row of the README's table. */
  inFull: string;
  /** A line to paste. */
  example: string;
  /** What stands after its name, and what is taken where nothing does. */
  argument: Argument;
  /** What stands after that, of a question about two files. */
  beside?: Argument;
  options: readonly CommandOption[];
  /** Of a question about a sheet of readings. */
  sheet?: SheetColumns;
  /** Answers. @returns the exit status @throws ReadError, UsageError, RunError, DiskError */
  answer(argument: string, flags: object, beside: string): Promise<number>;
  /** What it does on a thread of its own; none of a question that is answered at once. */
  work?(): Promise<{ work(job: never, onProgress: OnProgress): unknown }>;
}

export interface Argument {
  name: string;
  about: string;
  usual: string;
}

export const argumentsOf = ({ argument, beside }: Question): Argument[] => (beside ? [argument, beside] : [argument]);

/** Told how far the work is. */
export type OnProgress = (progress: { lap: number; time_s: number } | { doing: string }) => void;

export const PLAN_ARGUMENT: Argument = {
  name: "plan",
  about: "the plan's file, or - for standard input",
  usual: "plan.yaml",
};
