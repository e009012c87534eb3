import { basename, join } from "node:path";
import type { Tool } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { version } from "../../ground/version.js";
import { type Diagnostic, ReadError, UsageError } from "../../read/diagnostics.js";
import { type Arrived, patiently } from "../../read/text/awaited.js";
import { label } from "../../read/text/open.js";
import { readText, TextError } from "../../read/text/text.js";
import { nextLines } from "../../words/next.js";
import { progressLine } from "../../words/progress.js";
import type { Opened } from "../../words/ready.js";
import { print, tell, terminal, writeOut } from "../../words/terminal.js";
import { filesOf } from "../../work/files.js";
import type { PlanFlags } from "../../work/flags.js";
import { endWith, openPlan } from "../../work/opened.js";
import { outputsOf } from "../../work/outputs.js";
import { onThread } from "../../work/thread.js";
import { isBlankSheet, sheetCsv, trialJson } from "./files.js";
import { trialPage } from "./page.js";
import { type TrialTold, trialTold } from "./told.js";
import { readingUnit } from "./units.js";
import { trialInWords } from "./words.js";
import type { TrialJob, TrialWorked } from "./work.js";

export interface TrialFlags extends PlanFlags {
  /** A filled sheet. */
  readings?: string;
  /** What was seen, or rows of a sheet. */
  saw?: readonly string[];
  /** The instruments there are. */
  with?: readonly Tool[];
  /** Everything there is to read, and the fault table. */
  long?: true;
}

const SHEET = "sheet.csv";

/** The sheet of a first outing, or with a filled one what it makes likely. @returns the exit status */
export async function tried(path: string, flags: TrialFlags): Promise<number> {
  if (path === "-" && flags.readings === "-")
    throw new UsageError("the plan and --readings cannot both come from standard input; give one as a file");
  const { readings } = flags;
  const filled = readings === undefined ? undefined : await patiently((arrived) => filledSheet(readings, arrived));
  const opened = await openPlan(path, flags);
  const reads = [...opened.reading.files, ...(readings === undefined ? [] : [readings])];
  const files = outputsOf(flags, reads, ["answer.json", "trial.html"]);
  const told = trialTold(opened, await workedOut(opened, filled, flags), flags.quiet === true);
  const { warnings, notes } = opened;
  const heading = { command: "trial", warnings, assumed: notes.assumed, step_s: told.step_s, step_error: null };
  const document = jsonDocument(heading, trialJson(told));
  const left = flags.out !== undefined && !isBlankSheet(join(flags.out, SHEET));
  files.write("answer.json", document);
  files.write("trial.html", trialPage(told, headingOf(path, flags, told)));
  if (!left) files.write(SHEET, sheetCsv(told));
  const written = files.finish();
  if (flags.json) writeOut(document);
  else print([...trialInWords(told), ...(flags.quiet ? [] : nextLines("trial", path, flags, terminal().columns))]);
  if (!flags.quiet && written.length > 0) tell([`written: ${written.join(", ")}`]);
  if (left) tell([`left as it is: ${join(flags.out ?? "", SHEET)}, which has readings in it`]);
  return endWith(opened, flags);
}

/** On a thread of its own, so that an interrupt is heard at once. @throws ReadError with every problem of the filled sheet */
async function workedOut(
  { reading, eyes }: Opened,
  sheet: { file: string; text: string } | undefined,
  flags: TrialFlags,
) {
  const progress = progressLine(flags.quiet === true);
  progress.say("working out what a sound loco reads, and what each fault would");
  const { with: tools, saw: said = [] } = flags;
  // A program has the whole sheet.
  const long = flags.long === true || (flags.json === true && sheet === undefined && said.length === 0);
  const units = Object.fromEntries(BARE.map((unit) => [unit, readingUnit(unit, eyes)]));
  const job: TrialJob = { ...filesOf(reading), tools, long, sheet, said, units };
  const worked = await onThread<TrialWorked | Diagnostic[]>("trial", job).finally(progress.clear);
  if (!Array.isArray(worked)) return worked;
  if (worked.every(({ file }) => file.startsWith("--saw")))
    throw new UsageError(worked.map(({ file, message }) => `${file}: ${message}`).join("\n"));
  throw new ReadError(worked);
}

/** Readings that may be written without a unit: it stands in the sheet beside them. */
const BARE = ["V", "A", "N", "m/s", "m", "mm", "s", "rpm", "°C"] as const;

/** A sheet has some sixty lines. */
const LIMIT_bytes = 256 * 1024;

function filledSheet(path: string, arrived: Arrived): { file: string; text: string } {
  try {
    return { file: label(path), text: readText(path, LIMIT_bytes, arrived) };
  } catch (error) {
    if (!(error instanceof TextError)) throw error;
    if (error.line !== undefined)
      throw new ReadError([{ file: label(path), line: error.line, message: error.message }]);
    throw new UsageError(`--readings ${path}: ${error.message}`);
  }
}

const headingOf = (path: string, flags: TrialFlags, { reading: { plan } }: TrialTold) => ({
  date: new Date().toISOString().slice(0, 10),
  version: version(),
  inputs: [
    ...(path === "-" ? ["standard input"] : [basename(path)]),
    basename(plan.loco),
    basename(plan.track.profile),
    ...(flags.readings === undefined ? [] : [flags.readings === "-" ? "standard input" : basename(flags.readings)]),
  ],
});
