import { plain } from "../ground/plain.js";

/** Where something stands: in a file, or in an option of the command line (then without line and column). */
export interface Place {
  /** The file as the person named it, `stdin`, or the option as typed. */
  file: string;
  line?: number;
  /** Character of the line, from 1; absent in a CSV, where the message names the column. */
  column?: number;
}

export interface Diagnostic extends Place {
  message: string;
}

/** `loco.yaml:14:9: error: …`, one line each. */
export const diagnosticLine = (
  { file, line, column, message }: Diagnostic,
  severity: "error" | "warning" = "error",
): string => `${[file, line, column].filter((part) => part !== undefined).join(":")}: ${severity}: ${message}`;

/** Input that cannot be used: every problem of every file, sorted by place. Exit status 1. */
export class ReadError extends Error {
  override readonly name = "ReadError";
  readonly diagnostics: readonly Diagnostic[];
  constructor(diagnostics: readonly Diagnostic[]) {
    const sorted = sortedOnce(diagnostics);
    super(sorted.map((each) => diagnosticLine(each)).join("\n"));
    this.diagnostics = sorted;
  }
}

/** A command line that cannot be used: a `--set`, or an option short for one, with a bad path or value. Exit status 2. */
export class UsageError extends Error {
  override readonly name = "UsageError";
}

/** By file and place, each said once. */
export function sortedOnce(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const once = new Map(diagnostics.map((each) => [diagnosticLine(each), each]));
  return [...once.values()].sort(
    (a, b) =>
      Number(a.file > b.file) - Number(a.file < b.file) ||
      (a.line ?? 0) - (b.line ?? 0) ||
      (a.column ?? 0) - (b.column ?? 0),
  );
}

/** More than these of one file help nobody, and a file made to have millions must not take for ever. */
const MOST_PROBLEMS = 500;

/** Adds a problem of a file to those it has; a terminal must not obey what a file holds. */
export function addProblem(problems: Diagnostic[], problem: Diagnostic): void {
  const message = plain(problem.message);
  if (problems.length < MOST_PROBLEMS) problems.push({ ...problem, message });
  else if (!isFull(problems))
    problems.push({ file: problem.file, message: `these are the first ${MOST_PROBLEMS} problems` });
}

/** A table that is wrong is usually wrong all along: so many of its problems show how. */
const FIRST_PROBLEMS = 20;

/** Tells the problems of a table, which may have a million rows: the first, and how many there are. */
export function tellFirst(file: string, problems: Diagnostic[]): (line: number, message: string) => void {
  let count = 0;
  const counted: Diagnostic = { file, message: "" };
  return (line, message) => {
    count++;
    if (count <= FIRST_PROBLEMS) addProblem(problems, { file, line, message });
    if (count === FIRST_PROBLEMS + 1) problems.push(counted);
    counted.message = `${count.toLocaleString("en")} problems, of which the first ${FIRST_PROBLEMS} are told`;
  };
}

export const isFull = (problems: readonly Diagnostic[]): boolean => problems.length > MOST_PROBLEMS;
