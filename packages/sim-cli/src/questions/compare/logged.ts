import { quantity, type Track, UnitError } from "@rideon/sim-core";
import { type Diagnostic, ReadError, UsageError } from "../../read/diagnostics.js";
import { mappedIn } from "../../read/index.js";
import { patiently } from "../../read/text/awaited.js";
import { progressLine } from "../../words/progress.js";
import type { Opened } from "../../words/ready.js";
import { filesOf } from "../../work/files.js";
import type { PlanFlags } from "../../work/flags.js";
import { sheetIn } from "../../work/sheet.js";
import { onThread } from "../../work/thread.js";
import type { CompareJob, CompareWorked } from "./work.js";

/** How a log is read and laid along the line. */
export interface LogFlags extends PlanFlags {
  /** What columns with names of their own hold. */
  column?: readonly string[];
  /** Where the log begins. */
  from?: string;
  fit?: readonly string[];
}

/** The text of a log. */
export interface LogText {
  file: string;
  text: string;
}

/** A day of a hundred readings a second. */
const LIMIT_bytes = 512 * 1024 * 1024;

/** @throws ReadError, UsageError */
export async function logIn(path: string, { column = [] }: LogFlags): Promise<LogText> {
  const wrong = column.flatMap((text) => {
    const mapped = mappedIn(text);
    return typeof mapped === "string" ? [`--column "${text}": ${mapped}`] : [];
  });
  if (wrong.length > 0) throw new UsageError(wrong.join("\n"));
  return patiently((arrived) => sheetIn(path, LIMIT_bytes, (file, text) => ({ file, text }), arrived));
}

/** The log beside the sums, on a thread of its own. @throws ReadError, UsageError, RunError */
export async function besideTheSums(log: LogText, { reading, plan }: Opened, flags: LogFlags): Promise<CompareWorked> {
  const job: CompareJob = {
    ...filesOf(reading),
    log,
    columns: flags.column ?? [],
    from_m: flags.from === undefined ? 0 : placeOf(flags.from, plan.track),
    fit: flags.fit ?? [],
  };
  const progress = progressLine(flags.quiet === true);
  progress.say("running the line as it was logged");
  const worked = await onThread<CompareWorked | Diagnostic[]>("compare", job, progress.show).finally(progress.clear);
  if (Array.isArray(worked)) throw refused(worked);
  return worked;
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
    const places = [...new Set(place.filter((each) => each !== ""))];
    const known = places.length > 0 ? `, or one of the places ${places.join(", ")}` : "";
    throw new UsageError(`--from ${text}: it is a length along the line, such as 120 m${known}`);
  }
}

function refused(problems: readonly Diagnostic[]): Error {
  const options = problems.filter(({ file }) => file.startsWith("--"));
  if (options.length < problems.length) return new ReadError(problems);
  return new UsageError(options.map(({ file, message }) => `${file}: ${message}`).join("\n"));
}
