import {
  createPlan,
  createSizing,
  InputError,
  type Notes,
  type Plan,
  type Problem,
  type Sizing,
} from "@rideon/sim-core";
import { STATUS } from "../failure.js";
import { type Place, ReadError, UsageError } from "../read/diagnostics.js";
import { type Reading, readPlan } from "../read/index.js";
import { patiently } from "../read/text/awaited.js";
import { type Eyes, eyesFor } from "../words/eyes.js";
import { tell } from "../words/terminal.js";
import { type PlacedWarning, placed, warningLine } from "../words/warnings.js";
import { type PlanFlags, setsOf } from "./options.js";

/** Files read and made ready, with their warnings where they belong and the units their reader thinks in. */
export interface Ready {
  reading: Reading;
  notes: Notes;
  warnings: readonly PlacedWarning[];
  eyes: Eyes;
}

export interface Opened extends Ready {
  plan: Plan;
}

/** A train whose drive is still to be chosen. */
export interface OpenedSizing extends Ready {
  sizing: Sizing;
}

/** @throws ReadError, UsageError with every problem found */
export async function openPlan(path: string, flags: PlanFlags): Promise<Opened> {
  const reading = await patiently((arrived) => readPlan(path, { sets: setsOf(flags), arrived }));
  const plan = made(reading, path, planOf);
  return { ...ready(reading, plan, flags), plan };
}

export const planOf = ({ plan, loco, track, tables }: Reading): Plan => createPlan(plan, loco, track, tables);

/** Not needed to tell what a train wants of its drive. */
const DRIVE = ["loco.motor", "loco.gears", "loco.controller", "loco.battery"];

/** @throws ReadError, UsageError with every problem found */
export async function openSizing(path: string, flags: PlanFlags): Promise<OpenedSizing> {
  const reading = await patiently((arrived) => readPlan(path, { sets: setsOf(flags), without: DRIVE, arrived }));
  const sizing = made(reading, path, ({ plan, loco, track }) => createSizing(plan, loco, track));
  return { ...ready(reading, sizing, flags), sizing };
}

function ready(reading: Reading, { notes, track }: Pick<Plan, "notes" | "track">, { units }: PlanFlags): Ready {
  const warnings = notes.warnings.map((each) => placed(each, reading.place(each.path)));
  return { reading, notes, warnings, eyes: eyesFor(reading.units, units, track) };
}

function made<T>(reading: Reading, path: string, make: (reading: Reading) => T): T {
  try {
    return make(reading);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw refused(error.problems, (at) => reading.place(at) ?? { file: path });
  }
}

/** Problems that only the whole train shows, at the places of the keys they are about. */
function refused(problems: readonly Problem[], place: (path: string) => Place): Error {
  const diagnostics = problems.map(({ path, message }) => ({ ...place(path), message: `${keyOf(path)}: ${message}` }));
  if (!diagnostics.some(({ file }) => file.startsWith("--"))) return new ReadError(diagnostics);
  return new UsageError(diagnostics.map(({ file, message }) => `${file}: ${message}`).join("\n"));
}

/** The key as its file has it: `gears.2.teeth` of `loco.gears.2.teeth`; of a row of a CSV, the column. */
const keyOf = (path: string): string =>
  path.replace(/^(?:track|loco\.motor\.(?:curve|saturation))\.\d+\./, "").replace(/^(?:loco|plan)\./, "");

/** Tells the warnings; they give status 1 under `--strict`. */
export function endWith({ warnings }: Ready, { strict }: PlanFlags): number {
  tell(warnings.map(warningLine));
  return strict && warnings.length > 0 ? STATUS.input : STATUS.answered;
}
