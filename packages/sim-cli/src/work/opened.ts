import { createSizing, InputError, type Plan, type Problem } from "@rideon/sim-core";
import { STATUS } from "../ground/status.js";
import { type Place, ReadError, UsageError } from "../read/diagnostics.js";
import { type Reading, readPlan } from "../read/index.js";
import { patiently } from "../read/text/awaited.js";
import { eyesFor } from "../words/eyes.js";
import type { Opened, OpenedSizing, Ready } from "../words/ready.js";
import { tell } from "../words/terminal.js";
import { placed, warningLine } from "../words/warnings.js";
import { planOf } from "./files.js";
import { type PlanFlags, setsOf } from "./flags.js";

/** @throws ReadError, UsageError with every problem found */
export async function openPlan(path: string, flags: PlanFlags): Promise<Opened> {
  const reading = await patiently((arrived) => readPlan(path, { sets: setsOf(flags), arrived }));
  const plan = made(reading, path, planOf);
  return { ...ready(reading, plan, flags), plan };
}

/** Not needed to tell what a train wants of its drive. */
export const DRIVE: readonly string[] = ["loco.motor", "loco.gears", "loco.controller", "loco.battery"];

/** @throws ReadError, UsageError with every problem found */
export async function openSizing(path: string, flags: PlanFlags): Promise<OpenedSizing> {
  const reading = await patiently((arrived) => readPlan(path, { sets: setsOf(flags), without: DRIVE, arrived }));
  const sizing = made(reading, path, ({ plan, loco, track, doubts }) =>
    createSizing(plan, loco, track, doubts ? { doubts } : {}),
  );
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
