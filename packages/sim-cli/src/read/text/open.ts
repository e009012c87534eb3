import { type Diagnostic, type Place, UsageError } from "../diagnostics.js";
import type { Arrived } from "./awaited.js";
import { NO_SUCH_FILE, readText, TextError } from "./text.js";

/** What was found wrong on the way: in the files, and on the command line. */
export interface Findings {
  problems: Diagnostic[];
  usage: string[];
  /** Where input that has yet to come is not to be waited for: what has come of it. */
  arrived?: Arrived | undefined;
}

/** A file to read, and where it is named. */
export interface Wanted {
  path: string;
  namedAt?: Place;
  /** The key that names it. */
  key?: string;
  /** What is said where a file that no key names is not there; a plan is thought to be wanted unless told. */
  missing?: string;
}

const NO_PLAN = "there is no plan here; rideon new starts one";

/** What `use` gives; a fault of the command line goes to the findings. */
export function orUsage<T>({ usage }: Findings, use: () => T): T | undefined {
  try {
    return use();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    usage.push(error.message);
    return undefined;
  }
}

/** The text of a file; one that cannot be read is told where it is named. */
export function opened(
  { problems, usage, arrived }: Findings,
  wanted: Wanted,
  limit_bytes: number,
): string | undefined {
  const { path, namedAt, key, missing = NO_PLAN } = wanted;
  try {
    return readText(path, limit_bytes, arrived);
  } catch (error) {
    if (!(error instanceof TextError)) throw error;
    const { message, line } = error;
    if (line !== undefined) problems.push({ file: label(path), line, message });
    else if (!namedAt) problems.push({ file: label(path), message: message === NO_SUCH_FILE ? missing : message });
    else if (namedAt.line === undefined) usage.push(`${namedAt.file}: ${key}: ${path}: ${message}`);
    else problems.push({ ...namedAt, message: `${key}: ${path}: ${message}` });
    return undefined;
  }
}

/** What errors call a file. */
export const label = (path: string): string => (path === "-" ? "stdin" : path);
