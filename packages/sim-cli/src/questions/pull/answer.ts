import { coastingOf, type PullAnswer, type Pulled, pull } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { PULL_UNITS, type Pulls, readPulls } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { warningLine } from "../../words/warnings.js";
import { bearingsIn, bearingsOfFile } from "../../work/bearings.js";
import { intoFile, mustTake, type PutIn, putsOf } from "../../work/into.js";
import { leadsOn } from "../../work/leads.js";
import { openPlan } from "../../work/opened.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { mustBeSure, othersThan, type Suspected, unusual } from "../../work/units.js";
import { pullInWords, tells } from "./words.js";

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
  const known = await knownOf(flags, mesh);
  const { bearings: kinds, ...counts } = known;
  const { mass_kg, drag_N, counted } = counts;
  const pulls = sheetIn(path, LIMIT_bytes, readPulls);
  const answer = askedOf(path, pulls, () => pull(pulls.rows, { mass_kg, drag_N }));
  const told = { ...answer, ...counts, mesh };
  const puts = tells(told)
    ? putsOf(answer.fitted, `by spring balance, ${pulls.rows.length} pulls${mesh === "in" ? ", motor in mesh" : ""}`)
    : [];
  const bearings = kinds ?? (flags.into === undefined ? [] : bearingsOfFile(flags.into));
  const suspected: Suspected =
    mesh === "in" && !counted
      ? { warnings: [], question: null }
      : unusual(path, answer.fitted, askedFor(pulls), bearings);
  const { warnings } = suspected;
  let put: PutIn | undefined;
  if (flags.into !== undefined) {
    if (puts.length === 0)
      throw new UsageError(
        mesh === "in" && !counted
          ? "--into: the drive's drag is in these pulls, and the sums count it once more; tell --plan, so that it is taken off, or pull with the chain off"
          : `--into: there is nothing to put there: ${whyNothing(answer)}`,
      );
    mustTake(
      flags.into,
      puts.map((each) => `${each.file}.${each.path.join(".")}`),
    );
    mustBeSure(flags.into, suspected);
    put = intoFile(flags.into, puts, path === "-" ? [] : [path]);
  }
  const { passengers: _, ...document } = told;
  if (flags.json)
    writeOut(jsonDocument({ command: "pull", warnings, assumed: [], step_s: null, step_error: null }, document));
  else print([...pullInWords(told, { puts, put, question: suspected.question }), ...leadsOn("pull", flags)]);
  tell(warnings.map(warningLine));
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}

function whyNothing({ fitted }: PullAnswer): string {
  if (fitted.length === 0) return "it was pulled one way alone; pull it back over the same place";
  if (fitted.some(({ value }) => value <= 0))
    return "these pulls tell no rolling resistance, as is told without --into";
  return fitted.some(({ low }) => low > 0)
    ? "the figure is beyond what a file takes"
    : "the doubt is as wide as the figure; pull it more often, both ways";
}

/** Mass, drag and bearings, as told or as the plan has them. @throws UsageError */
async function knownOf({ mass, plan: path, of = "train" }: PullFlags, mesh: "in" | "out") {
  if (path === undefined) {
    if (mass === undefined)
      throw new UsageError(
        '--mass is missing: the mass of what was pulled, with all that sat on it, such as --mass "800 kg"; or --plan plan.yaml for the train of a plan',
      );
    return { mass_kg: mass, drag_N: 0, counted: false, passengers: null, bearings: null };
  }
  const { plan, reading } = await openPlan(path, {});
  const { mass_kg, drag_N } = coastingOf(plan, mesh, of, reading.loco.mass_kg);
  return {
    mass_kg: mass ?? mass_kg,
    drag_N: drag_N(0),
    counted: true,
    passengers: mass === undefined && of === "train" ? plan.passengers : null,
    bearings: bearingsIn(reading, of === "train"),
  };
}

const askedFor =
  ({ units }: Pulls) =>
  (path: string) => {
    const starts = path.endsWith("breakaway");
    const read = starts ? units.starting : units.steady;
    return { called: starts ? "to start" : "rolling resistance", read, others: othersThan(read, PULL_UNITS) };
  };
