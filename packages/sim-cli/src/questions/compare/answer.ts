import { basename } from "node:path";
import { quantity, type Track, UnitError } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { type Diagnostic, ReadError, UsageError } from "../../read/diagnostics.js";
import { mappedIn } from "../../read/index.js";
import { type Arrived, patiently } from "../../read/text/awaited.js";
import { label } from "../../read/text/open.js";
import { readText, TextError } from "../../read/text/text.js";
import { unitsFor } from "../../svg/units.js";
import { progressLine } from "../../words/progress.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { filesOf } from "../../work/files.js";
import type { PlanFlags } from "../../work/flags.js";
import { intoFile, putsOf } from "../../work/into.js";
import { endWith, openPlan } from "../../work/opened.js";
import { outputsOf } from "../../work/outputs.js";
import { onThread } from "../../work/thread.js";
import { alongFigure } from "./along.svg.js";
import { compareInWords } from "./words.js";
import type { CompareJob, CompareWorked } from "./work.js";

export interface CompareFlags extends PlanFlags {
  column?: readonly string[];
  /** Where the log begins. */
  from?: string;
  fit?: readonly string[];
  into?: string;
  svg?: string;
}

/** A day of a hundred readings a second. */
const LIMIT_bytes = 512 * 1024 * 1024;

/** @returns the exit status @throws ReadError, UsageError, RunError, DiskError */
export async function compared(path: string, plan: string, flags: CompareFlags): Promise<number> {
  mustBeAskable(path, plan, flags);
  const log = await patiently((arrived) => textOf(path, arrived));
  const opened = await openPlan(plan, flags);
  const reads = [...opened.reading.files, ...(path === "-" ? [] : [path])];
  const outputs = outputsOf(flags, reads, ["answer.json"]);
  const job: CompareJob = {
    ...filesOf(opened.reading),
    log,
    columns: flags.column ?? [],
    from_m: flags.from === undefined ? 0 : placeOf(flags.from, opened.plan.track),
    fit: flags.fit ?? [],
  };
  const progress = progressLine(flags.quiet === true);
  progress.say("running the line as it was logged");
  const worked = await onThread<CompareWorked | Diagnostic[]>("compare", job, progress.show).finally(progress.clear);
  if (Array.isArray(worked)) throw refused(worked);
  const { answer } = worked;
  const puts = putsOf(answer.fitted ?? [], `by a log of ${Math.round(answer.distance_m)} m`);
  if (flags.into !== undefined && puts.length === 0)
    throw new UsageError(
      "--into: there is nothing to put there; tell --fit what to fit, such as --fit loco.resistance.rolling",
    );
  const { warnings, notes } = opened;
  const document = jsonDocument(
    { command: "compare", warnings, assumed: notes.assumed, step_s: null, step_error: null },
    answer,
  );
  outputs.write("answer.json", document);
  if (flags.svg !== undefined) outputs.draw([alongFigure(answer, opened.eyes, unitsFor(opened.eyes))]);
  const written = outputs.finish();
  const put = flags.into === undefined ? undefined : intoFile(flags.into, puts, path === "-" ? [] : [path]);
  if (flags.json) writeOut(document);
  else if (flags.svg !== "-") print(compareInWords({ ...opened, ...worked, puts, put, log: basename(log.file) }));
  if (!flags.quiet && written.length > 0) tell([`written: ${written.join(", ")}`]);
  if (!flags.quiet && put) tell([`written: ${put.path}`]);
  return endWith(opened, flags);
}

function mustBeAskable(path: string, plan: string, { column = [], svg, json }: CompareFlags): void {
  if (path === "-" && plan === "-")
    throw new UsageError("the log and the plan cannot both come from standard input; give one as a file");
  if (svg === "-" && json) throw new UsageError("--svg - and --json both write to standard output; give --svg a file");
  const wrong = column.flatMap((text) => {
    const mapped = mappedIn(text);
    return typeof mapped === "string" ? [`--column "${text}": ${mapped}`] : [];
  });
  if (wrong.length > 0) throw new UsageError(wrong.join("\n"));
}

function textOf(path: string, arrived: Arrived): { file: string; text: string } {
  try {
    return { file: label(path), text: readText(path, LIMIT_bytes, arrived) };
  } catch (error) {
    if (!(error instanceof TextError)) throw error;
    throw new ReadError([
      { file: label(path), ...(error.line !== undefined && { line: error.line }), message: error.message },
    ]);
  }
}

/** A length along the line, or a place on it by its name. @throws UsageError */
function placeOf(text: string, { place, distance_m, length_m }: Track): number {
  const named = place.findIndex((each) => each.toLowerCase() === text.trim().toLowerCase() && each !== "");
  if (named >= 0) return distance_m[named] ?? 0;
  try {
    const from_m = quantity(text, "length", "120 m");
    if (from_m >= 0 && from_m <= length_m) return from_m;
    throw new UsageError(`--from ${text}: that is beyond the line, which is ${length_m.toFixed(1)} m long`);
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
    const places = place.filter((each) => each !== "");
    const known = places.length > 0 ? `, or one of the places ${places.join(", ")}` : "";
    throw new UsageError(`--from ${text}: it is a length along the line, such as 120 m${known}`);
  }
}

function refused(problems: readonly Diagnostic[]): Error {
  const options = problems.filter(({ file }) => file.startsWith("--"));
  if (options.length < problems.length) return new ReadError(problems);
  return new UsageError(options.map(({ file, message }) => `${file}: ${message}`).join("\n"));
}
