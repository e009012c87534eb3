import { type CompareAnswer, compare, InputError } from "@rideon/sim-core";
import { addProblem, type Diagnostic } from "../../read/diagnostics.js";
import { type Mapped, mappedIn, readLog } from "../../read/index.js";
import type { Files } from "../../work/files.js";
import type { OnProgress } from "../../work/question.js";

/** The files of a plan, the text of a log, and what is asked of it. */
export interface CompareJob extends Files {
  log: { file: string; text: string };
  columns: readonly string[];
  from_m: number;
  fit: readonly string[];
}

/** The answer, and what was read for it. */
export interface CompareWorked {
  answer: CompareAnswer;
  leftOut: string[];
  repeated: number;
  /** Of the readings after gaps, the lines. */
  gapLines: number[];
}

/** Runs that a comparison takes, about: so far apart is its progress told. */
const TELL_RUNS = 5;

/** @returns what was worked out, or what is wrong with the log */
export function work(job: CompareJob, onProgress: OnProgress): CompareWorked | Diagnostic[] {
  const problems: Diagnostic[] = [];
  // Looked at before the thread was begun.
  const mapped = job.columns.map(mappedIn).filter((each): each is Mapped => typeof each !== "string");
  const log = readLog(job.log.file, job.log.text, mapped, problems);
  if (!log) return problems;
  let runs = 0;
  const onRun = () => {
    if (++runs % TELL_RUNS === 0) onProgress({ doing: `running the line as it was logged, ${runs} times so far` });
  };
  try {
    const answer = compare(job, log.columns, { from_m: job.from_m, fit: job.fit, onRun });
    const gapLines = answer.gaps.map(({ reading }) => log.lines[reading] ?? 0);
    return { answer, leftOut: log.leftOut, repeated: log.repeated, gapLines };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    for (const { path, message } of error.problems) {
      const [, reading] = /^log\.(\d+)$/.exec(path) ?? [];
      if (reading !== undefined)
        addProblem(problems, { file: job.log.file, line: log.lines[Number(reading) - 1] ?? 1, message });
      else addProblem(problems, { file: path === "options.fit" ? "--fit" : "--from", message });
    }
    return problems;
  }
}
