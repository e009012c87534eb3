import { type Filled, outingOf, readingNames, type Tool, type TrialAnswer, trial, usualStep_s } from "@rideon/sim-core";
import { addProblem, type Diagnostic } from "../../read/diagnostics.js";
import { readReadings } from "../../read/readings/readings.js";
import type { ReadSheet } from "../../read/readings/rows.js";
import { saidReadings } from "../../read/readings/said.js";
import type { UnitWords } from "../../read/readings/units.js";
import type { Files } from "../../work/files.js";

/** The files of a plan, what sheet is wanted, and what was filled in or said. */
export interface TrialJob extends Files {
  tools: readonly Tool[] | undefined;
  long: boolean;
  /** The text of a filled sheet, and what was said on the command line. */
  sheet: { file: string; text: string } | undefined;
  said: readonly string[];
  /** Units of the sheet that bare numbers are in. */
  units: UnitWords;
}

/** The answer, and what was read for it. */
export interface TrialWorked {
  answer: TrialAnswer;
  filled: Filled | undefined;
  /** What was taken for granted in reading it. */
  remarks: readonly string[];
  /** Of the simulations behind the laps and the stops. */
  step_s: number;
}

/** @returns what was worked out, or what is wrong with what was filled in */
export function work(job: TrialJob): TrialWorked | Diagnostic[] {
  const { plan, loco, track, tables, tools, long } = job;
  const outing = outingOf(plan, loco, track, tables);
  const problems: Diagnostic[] = [];
  const filled = filledOf(job, readingNames(outing, loco), problems);
  const { place_m = 0 } = filled?.told ?? {};
  const length_m = outing.train.track.length_m;
  if (place_m < 0 || place_m > length_m)
    addProblem(problems, {
      file: job.sheet?.file ?? "--saw run_place",
      message: `run_place: ${place_m.toFixed(1)} m is beyond the end of the line, which is ${length_m.toFixed(1)} m long`,
    });
  if (problems.length > 0) return problems;
  const answer = trial(outing, loco, { long, ...(tools ? { tools } : {}), ...(filled ? { filled } : {}) });
  return { answer, filled, remarks: filled?.remarks ?? [], step_s: usualStep_s(outing.train) };
}

/** What the file and the command line say together. */
function filledOf({ sheet, said, units }: TrialJob, names: ReturnType<typeof readingNames>, problems: Diagnostic[]) {
  const known = [
    { readings: names.map(({ reading, unit, instead }) => ({ reading, unit, or_else: instead ?? null })) },
  ];
  const read = sheet && readReadings(sheet.file, sheet.text, known, problems, units);
  if (said.length === 0) return read;
  const more = saidReadings(said, known, problems, units);
  return read && more ? joined(read, more, problems) : more;
}

function joined(a: ReadSheet, b: ReadSheet, problems: Diagnostic[]): ReadSheet {
  for (const { reading } of b.taken)
    if (a.taken.some((each) => each.reading === reading))
      addProblem(problems, {
        file: `--saw ${reading}`,
        message: "it stands in the filled sheet already; say it in one of the two",
      });
  return {
    taken: [...a.taken, ...b.taken],
    priors: { ...a.priors, ...b.priors },
    told: { ...a.told, ...b.told },
    remarks: [...a.remarks, ...b.remarks],
  };
}
