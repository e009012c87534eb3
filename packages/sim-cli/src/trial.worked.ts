import {
  type CauseName,
  type Evidence,
  type LocoDefinition,
  type MotorTables,
  outingOf,
  type PlanDefinition,
  type TrackColumns,
  type TrialAnswer,
  trial,
  trialOf,
} from "@rideon/sim-core";
import type { Diagnostic } from "./read/diagnostics.js";
import { type Filled, readReadings } from "./read/readings.js";

/** The files of a plan, and the text of a filled sheet where there is one. */
export interface TrialJob {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables: MotorTables;
  filled: { file: string; text: string } | undefined;
}

/** The answer, and what was read with it. */
export interface TrialWorked {
  answer: TrialAnswer;
  filled: Filled | undefined;
  /** Of every other cause, the readings by which the likeliest is told from it. */
  against: Against[];
}

export interface Against {
  cause: CauseName;
  evidence: Evidence[];
}

/** The sheet is worked out once: a filled one is read by it and judged by the same figures. @returns or what is wrong with the filled one */
export function trialWorked({ plan, loco, track, tables, filled: file }: TrialJob): TrialWorked | Diagnostic[] {
  const ready = trialOf(outingOf(plan, loco, track, tables), loco);
  const problems: Diagnostic[] = [];
  const filled = file && readReadings(file.file, file.text, ready.sheet, problems);
  if (problems.length > 0) return problems;
  const answer = trial(ready, filled);
  const against = (answer.causes ?? []).slice(1).map(({ cause, against: evidence }) => ({ cause, evidence }));
  return { answer, filled, against };
}
