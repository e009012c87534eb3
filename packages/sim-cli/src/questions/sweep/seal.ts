import { createHash } from "node:crypto";
import { UsageError } from "../../read/diagnostics.js";

/** The last column: a row that was changed by hand, or is of another sweep, does not fit its own. */
export const CHECK = "check";

/** Short, since nobody is to be kept from forging one: it finds slips. */
const LENGTH = 8;

const checkOf = (cells: string, fingerprint: string): string =>
  createHash("sha256").update(`${fingerprint}\n${cells}`).digest("hex").slice(0, LENGTH);

/** The line of a case as its file has it, with its check. @param line ends with a newline */
export function sealed(line: string, fingerprint: string): string {
  const cells = line.replace(/\n$/, "");
  return `${cells},${checkOf(cells, fingerprint)}\n`;
}

/** @param line without its newline; @param at its number in the file @throws UsageError where it does not fit its check */
export function mustFit(line: string, fingerprint: string, path: string, at: number): void {
  const end = line.lastIndexOf(",");
  if (end >= 0 && line.slice(end + 1) === checkOf(line.slice(0, end), fingerprint)) return;
  throw new UsageError(
    `${path}:${at}: this row is not as it was written, ${line.slice(0, 40)}…; put it back, or delete this line and run the sweep, or its share, again: that works out what is missing, and no more`,
  );
}
