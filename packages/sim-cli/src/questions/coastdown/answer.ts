import { type CoastdownOptions, type CoastRow, coastdown, coastingOf, gradientUnder } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { readCoasting } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { intoFile, type PutIn, putsOf } from "../../work/into.js";
import { leadsOn } from "../../work/leads.js";
import { openPlan } from "../../work/opened.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { type Aboard, coastInWords } from "./words.js";

export interface CoastFlags {
  rotating?: number;
  plan?: string;
  mesh?: "in" | "out";
  into?: string;
  json?: true;
  quiet?: true;
}

/** Hours of readings ten times a second. */
const LIMIT_bytes = 4 * 1024 * 1024;

/** @returns the exit status @throws ReadError, UsageError, DiskError */
export async function coasted(path: string, flags: CoastFlags): Promise<number> {
  const coasting = sheetIn(path, LIMIT_bytes, readCoasting);
  const mesh = flags.mesh ?? "out";
  const known = await knownOf(coasting.rows, flags, mesh);
  const { options: planned, aboard } = known;
  const options = { ...planned, ...(flags.rotating !== undefined && { rotating: flags.rotating }) };
  const answer = askedOf(path, coasting, () => coastdown(coasting.rows, options));
  const puts = putsOf(answer.fitted, `by coasting, ${answer.runs} runs`);
  let put: PutIn | undefined;
  if (flags.into !== undefined) {
    if (puts.length === 0)
      throw new UsageError(
        "--into: there is nothing to put there: let it coast both ways, and more often where the doubt is as wide as the figure",
      );
    put = intoFile(flags.into, puts, path === "-" ? [] : [path]);
  }
  if (flags.json)
    writeOut(jsonDocument({ command: "coastdown", warnings: [], assumed: [], step_s: null, step_error: null }, answer));
  else {
    const told = {
      ...answer,
      mesh,
      aboard,
      profiled: options.gradient !== undefined,
      turning: options.rotating !== undefined,
    };
    print([...coastInWords(told, puts, put), ...leadsOn("coastdown", flags)]);
  }
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}

/** What the plan tells of the train and its line. @throws UsageError */
async function knownOf(
  rows: readonly CoastRow[],
  { plan: path }: CoastFlags,
  mesh: "in" | "out",
): Promise<{ options: CoastdownOptions; aboard: Aboard | null }> {
  if (path === undefined) {
    if (mesh === "in")
      throw new UsageError("--mesh in: the drive's drag is the plan's to tell; give --plan plan.yaml too");
    return { options: {}, aboard: null };
  }
  const { plan } = await openPlan(path, {});
  const { rotating, drag_N, mass_kg } = coastingOf(plan, mesh);
  const told = rows.flatMap(({ speed_mps }) => (speed_mps === null ? [] : [speed_mps]));
  const mean_mps = told.length > 0 ? told.reduce((sum, each) => sum + each, 0) / told.length : WALK_mps;
  const placed = rows.some(({ from_m }) => from_m !== null && from_m !== undefined);
  return {
    options: {
      rotating,
      drag_Npkg: drag_N(mean_mps) / mass_kg,
      ...(placed && { gradient: gradientUnder(plan) }),
    },
    aboard: { mass_kg, passengers: plan.passengers },
  };
}

/** Past marks a train coasts about so fast. */
const WALK_mps = 1.5;
