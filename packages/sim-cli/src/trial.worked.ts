import {
  type Filled,
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
import { readReadings } from "./read/readings.js";

/** The files of a plan, and the text of a filled sheet where there is one. */
export interface TrialJob {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables: MotorTables;
  filled: { file: string; text: string } | undefined;
}

/** The answer, and what was read for it. */
export interface TrialWorked {
  answer: TrialAnswer;
  filled: Filled | undefined;
  /** Of the simulations behind the laps and the stops. */
  step_s: number;
}

/**
 * The sheet is worked out once: a filled one is read by it and judged by the same figures.
 * @returns what was worked out, or what is wrong with the filled sheet
 */
export function trialWorked({ plan, loco, track, tables, filled: file }: TrialJob): TrialWorked | Diagnostic[] {
  const ready = trialOf(outingOf(plan, loco, track, tables), loco);
  const problems: Diagnostic[] = [];
  const filled = file && readReadings(file.file, file.text, ready.sheet, problems);
  return problems.length > 0 ? problems : { answer: trial(ready, filled), filled, step_s: ready.setting.step_s };
}
