import { coastingOf, type Pulled, pull } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { readPulls } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { intoFile, type PutIn, putsOf } from "../../work/into.js";
import { openPlan } from "../../work/opened.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { pullInWords } from "./words.js";

export interface PullFlags {
  mass?: number;
  plan?: string;
  of?: Pulled;
  mesh?: "in" | "out";
  into?: string;
  json?: true;
  quiet?: true;
}

/** Nobody pulls so often. */
const LIMIT_bytes = 256 * 1024;

/** @returns the exit status @throws ReadError, UsageError, DiskError */
export async function pulled(path: string, flags: PullFlags): Promise<number> {
  const mesh = flags.mesh ?? "out";
  const { mass_kg, drag_N, counted } = await knownOf(flags, mesh);
  const pulls = sheetIn(path, LIMIT_bytes, readPulls);
  const answer = askedOf(path, pulls, () => pull(pulls.rows, { mass_kg, drag_N }));
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
  const told = { ...answer, mass_kg, mesh, counted };
  if (flags.json)
    writeOut(jsonDocument({ command: "pull", warnings: [], assumed: [], step_s: null, step_error: null }, told));
  else print(pullInWords(told, puts, put));
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}

/** Mass and drag, as told or as the plan has them. @throws UsageError */
async function knownOf({ mass, plan: path, of = "train" }: PullFlags, mesh: "in" | "out") {
  if (path === undefined) {
    if (mass === undefined)
      throw new UsageError(
        '--mass is missing: the mass of what was pulled, with all that sat on it, such as --mass "800 kg"; or --plan plan.yaml for the train of a plan',
      );
    return { mass_kg: mass, drag_N: 0, counted: false };
  }
  const { plan, reading } = await openPlan(path, {});
  const { mass_kg, drag_N } = coastingOf(plan, mesh, of, reading.loco.mass_kg);
  return { mass_kg: mass ?? mass_kg, drag_N: drag_N(0), counted: true };
}
