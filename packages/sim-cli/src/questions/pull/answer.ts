import { pull } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { readPulls } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { intoFile, type PutIn, putsOf } from "../../work/into.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { pullInWords } from "./words.js";

export interface PullFlags {
  mass?: number;
  mesh?: "in" | "out";
  into?: string;
  json?: true;
  quiet?: true;
}

/** Nobody pulls so often. */
const LIMIT_bytes = 256 * 1024;

/** @returns the exit status @throws ReadError, UsageError, DiskError */
export async function pulled(path: string, flags: PullFlags): Promise<number> {
  if (flags.mass === undefined)
    throw new UsageError(
      '--mass is missing: the mass of what was pulled, with all that sat on it, such as --mass "800 kg"',
    );
  const pulls = sheetIn(path, LIMIT_bytes, readPulls);
  const mass_kg = flags.mass;
  const answer = askedOf(path, pulls, () => pull(pulls.rows, { mass_kg }));
  const mesh = flags.mesh ?? "out";
  const puts = putsOf(
    answer.fitted,
    `by spring balance, ${pulls.rows.length} pulls${mesh === "in" ? ", motor in mesh" : ""}`,
  );
  let put: PutIn | undefined;
  if (flags.into !== undefined) {
    if (puts.length === 0)
      throw new UsageError(
        "--into: there is nothing to put there: pull it both ways, and more often where the doubt is as wide as the figure",
      );
    put = intoFile(flags.into, puts, path === "-" ? [] : [path]);
  }
  const told = { ...answer, mass_kg, mesh };
  if (flags.json)
    writeOut(jsonDocument({ command: "pull", warnings: [], assumed: [], step_s: null, step_error: null }, told));
  else print(pullInWords(told, puts, put));
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}
