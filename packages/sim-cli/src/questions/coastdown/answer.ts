import {
  type CoastdownAnswer,
  type CoastdownOptions,
  type CoastRow,
  coastdown,
  coastingOf,
  coastLineOf,
} from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { COAST_UNITS, readCoasting } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { type PlacedWarning, warningLine } from "../../words/warnings.js";
import { bearingsIn, bearingsOfFile } from "../../work/bearings.js";
import { intoFile, mustTake, type PutIn, putsOf } from "../../work/into.js";
import { leadsOn } from "../../work/leads.js";
import { openPlan } from "../../work/opened.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { type Bearings, mustBeSure, othersThan, unusual } from "../../work/units.js";
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
  const { what, unit } = coasting.read;
  const asked = { called: "rolling resistance", read: unit, others: othersThan(unit, COAST_UNITS[what]) };
  const bearings = known.bearings ?? (flags.into === undefined ? [] : bearingsOfFile(flags.into));
  const suspected = unusual(path, answer.fitted, () => asked, bearings);
  const warnings = [...doubtful, ...suspected.warnings];
  let put: PutIn | undefined;
  if (flags.into !== undefined) {
    if (puts.length === 0) throw new UsageError(`--into: there is nothing to put there: ${whyNothing(answer)}`);
    mustTake(flags.into, [ROLLING]);
    mustBeSure(flags.into, suspected);
    put = intoFile(flags.into, puts, path === "-" ? [] : [path]);
  }
  if (flags.json)
    writeOut(jsonDocument({ command: "coastdown", warnings, assumed: [], step_s: null, step_error: null }, answer));
  else {
    const told = {
      ...answer,
      mesh,
      aboard,
      turning: options.rotating !== undefined,
    };
    print([...coastInWords(told, { puts, put, question: suspected.question }), ...leadsOn("coastdown", flags)]);
  }
  tell(warnings.map(warningLine));
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}

const ROLLING = "loco.resistance.rolling";

function whyNothing({ unfit, both_ways, fitted: [rolling] }: CoastdownAnswer): string {
  if (!both_ways) return "it coasted one way alone; let it coast back over the same line";
  if (unfit !== null) return "these runs do not fit together, as is told without --into";
  if (!rolling || rolling.value <= 0) return "these runs tell no rolling resistance, as is told without --into";
  return rolling.low > 0
    ? "the figure is beyond what a file takes"
    : "the doubt is as wide as the figure; let it coast more often, both ways";
}

/** What is told of the train, and what the plan tells of it and of its line. @throws UsageError */
async function knownOf(
  rows: readonly CoastRow[],
  { plan: path, rotating: told }: CoastFlags,
  mesh: "in" | "out",
): Promise<{
  options: CoastdownOptions;
  aboard: Aboard | null;
  bearings: Bearings[] | null;
  doubtful: PlacedWarning[];
}> {
  if (path === undefined) {
    if (mesh === "in")
      throw new UsageError("--mesh in: the drive's drag is the plan's to tell; give --plan plan.yaml too");
    return { options: told === undefined ? {} : { rotating: told }, aboard: null, bearings: null, doubtful: [] };
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
    bearings: bearingsIn(reading, true),
    // Gradients that nobody may act on make the rolling resistance that is told by them no better.
    doubtful: warnings.filter(({ code }) => code === "doubtful_profile"),
  };
}

/** Of a drag area: the range of its default, 0.4 to 1.2 m² about 0.7; and where it is told, known roughly. */
const AIR = { assumed: 0.7, told: 0.25 } as const;
/** Past marks a train coasts about so fast. */
const WALK_mps = 1.5;
