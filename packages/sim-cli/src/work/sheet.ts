import { InputError } from "@rideon/sim-core";
import { type Diagnostic, ReadError, tellFirst } from "../read/diagnostics.js";
import type { Arrived } from "../read/text/awaited.js";
import { label, opened } from "../read/text/open.js";
import { NO_SUCH_FILE } from "../read/text/text.js";

/** A sheet of readings: its rows, and the line of each. */
interface Sheet {
  lines: readonly number[];
}

/**
 * What `read` makes of a file of readings.
 * @param arrived of input that is waited for, by `patiently`; where absent, it is waited for here
 * @throws ReadError with every problem of it
 */
export function sheetIn<S>(
  path: string,
  limit_bytes: number,
  read: (file: string, text: string, problems: Diagnostic[]) => S | undefined,
  arrived?: Arrived,
): S {
  const found = { problems: [] as Diagnostic[], usage: [] as string[], arrived };
  const text = opened(found, { path, missing: NO_SUCH_FILE }, limit_bytes);
  const sheet = text === undefined ? undefined : read(label(path), text, found.problems);
  if (!sheet) throw new ReadError(found.problems);
  return sheet;
}

/** What `ask` makes of it; the core counts rows (`pull.3`), and people count lines. @throws ReadError */
export function askedOf<A>(path: string, { lines }: Sheet, ask: () => A): A {
  try {
    return ask();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const lineOf = (at: string) => lines[Number(at.replace(/^.*\./, "")) - 1] ?? 1;
    const problems: Diagnostic[] = [];
    const tell = tellFirst(label(path), problems);
    const placed = error.problems.map((each) => ({ line: lineOf(each.path), message: each.message }));
    for (const { line, message } of placed.sort((a, b) => a.line - b.line)) tell(line, message);
    throw new ReadError(problems);
  }
}
