import { createPlan, InputError, type Plan, type Problem } from "@rideon/sim-core";
import { STATUS } from "../failure.js";
import { type PlanFlags, setsOf } from "../options.js";
import { type Place, ReadError, UsageError } from "../read/diagnostics.js";
import { type Reading, readPlan } from "../read/index.js";
import { type Eyes, eyesFor } from "../write/eyes.js";
import { tell } from "../write/terminal.js";
import { type PlacedWarning, placed, warningLine } from "../write/warnings.js";

/** A plan read and made ready, with its warnings where they belong and the units its reader thinks in. */
export interface Opened {
  reading: Reading;
  plan: Plan;
  warnings: readonly PlacedWarning[];
  eyes: Eyes;
}

/** @throws ReadError, UsageError with every problem found */
export function openPlan(path: string, flags: PlanFlags): Opened {
  const reading = readPlan(path, { sets: setsOf(flags) });
  const plan = made(reading, path);
  const warnings = plan.notes.warnings.map((each) => placed(each, reading.place(each.path)));
  return { reading, plan, warnings, eyes: eyesFor(reading.units, flags.units, plan.track) };
}

function made(reading: Reading, path: string): Plan {
  try {
    return createPlan(reading.plan, reading.loco, reading.track, reading.tables);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw refused(error.problems, (at) => reading.place(at) ?? { file: path });
  }
}

/** Problems that only the whole train shows, at the places of the keys they are about. */
function refused(problems: readonly Problem[], place: (path: string) => Place): Error {
  const diagnostics = problems.map(({ path, message }) => ({ ...place(path), message: `${keyOf(path)}: ${message}` }));
  if (!diagnostics.some(({ file }) => file.startsWith("--set"))) return new ReadError(diagnostics);
  return new UsageError(diagnostics.map(({ file, message }) => `${file}: ${message}`).join("\n"));
}

/** The key as its file has it: `gears.2.teeth` of `loco.gears.2.teeth`; of a row of a CSV, the column. */
const keyOf = (path: string): string =>
  path.replace(/^(?:track|loco\.motor\.(?:curve|saturation))\.\d+\./, "").replace(/^(?:loco|plan)\./, "");

/** Tells the warnings; they give status 1 under `--strict`. */
export function endWith({ warnings }: Opened, { strict }: PlanFlags): number {
  tell(warnings.map(warningLine));
  return strict && warnings.length > 0 ? STATUS.input : STATUS.answered;
}
