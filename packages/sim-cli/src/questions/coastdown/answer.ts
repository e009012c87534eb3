import { type CoastdownOptions, type CoastRow, coastdown, coastingOf, coastLineOf } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { COAST_UNITS, readCoasting } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { type PlacedWarning, warningLine } from "../../words/warnings.js";
import { intoFile, type PutIn, putsOf } from "../../work/into.js";
import { leadsOn } from "../../work/leads.js";
import { openPlan } from "../../work/opened.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { othersThan, unusual } from "../../work/units.js";
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
  const { options, aboard, doubtful } = known;
  const answer = askedOf(path, coasting, () => coastdown(coasting.rows, options));
  const puts = putsOf(answer.fitted, `by coasting, ${answer.runs} runs`);
  let put: PutIn | undefined;
  if (flags.into !== undefined) {
    if (puts.length === 0)
      throw new UsageError(
        answer.unfit === null
          ? "--into: there is nothing to put there: let it coast both ways, and more often where the doubt is as wide as the figure"
          : "--into: there is nothing to put there: these runs do not fit together, as is told without --into",
      );
    put = intoFile(flags.into, puts, path === "-" ? [] : [path]);
  }
  const { what, unit } = coasting.read;
  const warnings = [
    ...doubtful,
    ...unusual(path, answer.fitted, () => ({
      called: "rolling resistance",
      read: unit,
      others: othersThan(unit, COAST_UNITS[what]),
    })),
  ];
  if (flags.json)
    writeOut(jsonDocument({ command: "coastdown", warnings, assumed: [], step_s: null, step_error: null }, answer));
  else {
    const told = {
      ...answer,
      mesh,
      aboard,
      turning: options.rotating !== undefined,
    };
    print([...coastInWords(told, puts, put), ...leadsOn("coastdown", flags)]);
  }
  tell(warnings.map(warningLine));
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}

/** What is told of the train, and what the plan tells of it and of its line. @throws UsageError */
async function knownOf(
  rows: readonly CoastRow[],
  { plan: path, rotating: told }: CoastFlags,
  mesh: "in" | "out",
): Promise<{ options: CoastdownOptions; aboard: Aboard | null; doubtful: PlacedWarning[] }> {
  if (path === undefined) {
    if (mesh === "in")
      throw new UsageError("--mesh in: the drive's drag is the plan's to tell; give --plan plan.yaml too");
    return { options: told === undefined ? {} : { rotating: told }, aboard: null, doubtful: [] };
  }
  const { plan, reading, warnings } = await openPlan(path, {});
  const { rotating: planned, rotating_doubt, drag_N, mass_kg, air_N } = coastingOf(plan, mesh);
  const speeds_mps = rows.flatMap(({ speed_mps }) => speed_mps ?? []);
  const mean_mps =
    speeds_mps.length > 0 ? speeds_mps.reduce((sum, each) => sum + each, 0) / speeds_mps.length : WALK_mps;
  const rotating = told ?? planned;
  return {
    options: {
      rotating,
      ...(told === undefined && { rotating_doubt }),
      drag_Npkg: drag_N(mean_mps) / mass_kg,
      line: coastLineOf(plan),
      air: {
        pm: air_N / (rotating * mass_kg),
        doubt: reading.plan.drag_area_m2 === undefined ? AIR.assumed : AIR.told,
      },
    },
    aboard: { mass_kg, passengers: plan.passengers },
    // Gradients that nobody may act on make the rolling resistance that is told by them no better.
    doubtful: warnings.filter(({ code }) => code === "doubtful_profile"),
  };
}

/** Of a drag area: the range of its default, 0.4 to 1.2 m² about 0.7; and where it is told, known roughly. */
const AIR = { assumed: 0.7, told: 0.25 } as const;
/** Past marks a train coasts about so fast. */
const WALK_mps = 1.5;
