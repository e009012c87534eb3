import { closeSync, existsSync, openSync } from "node:fs";
import { attempt, wholeFiles } from "../../files/files.js";
import { mustFit } from "./seal.js";
import { type Head, wholeLines } from "./written.js";

/** Cases from one to another, from 0: one after the last. */
interface Range {
  from: number;
  to: number;
}

/** Rows that stand between others in no file: as lines that were deleted. */
interface Holes {
  ranges: Range[];
  /** Does every row follow those before it? What does not is told as the file is opened. */
  ordered: boolean;
}

/**
 * Puts rows that are missing between others into a sweep's file, and leaves those that are there as they are. Until all are
 * worked out the file stands as it stood.
 * @param first the first case of the file, from 0
 * @param work works a range out: its lines, each with its newline
 * @throws UsageError where a row is not as it was written; DiskError
 */
export async function mended(
  path: string,
  head: Head,
  { first, fingerprint }: { first: number; fingerprint: string },
  work: (range: Range, add: (line: string) => void) => Promise<void>,
): Promise<void> {
  if (!existsSync(path)) return;
  const { ranges, ordered } = holesIn(path, head, first, fingerprint);
  if (!ordered || ranges.length === 0) return;
  const missing = new Map<number, string[]>();
  for (const range of ranges) {
    const lines: string[] = [];
    await work(range, (line) => lines.push(line));
    missing.set(range.to, lines);
  }
  const files = wholeFiles();
  eachLine(path, (line, at) => {
    // Before the row that follows it.
    const lines = at > head.length ? missing.get(numberIn(line) - 1) : undefined;
    files.write(path, `${(lines ?? []).join("")}${line}\n`);
  });
  files.finish();
}

function holesIn(path: string, head: Head, first: number, fingerprint: string): Holes {
  const ranges: Range[] = [];
  let next = first;
  let ordered = true;
  eachLine(path, (line, at) => {
    if (at <= head.length) ordered &&= line === head[at - 1];
    if (at <= head.length || !ordered) return;
    mustFit(line, fingerprint, path, at);
    const index = numberIn(line) - 1;
    if (index > next) ranges.push({ from: next, to: index });
    ordered = index >= next;
    next = index + 1;
  });
  return { ranges, ordered };
}

const numberIn = (line: string): number => Number(/^(\d+),/.exec(line)?.[1]);

/** @param visit is given each whole line and its number */
function eachLine(path: string, visit: (line: string, at: number) => void): void {
  const file = attempt(path, () => openSync(path, "r"));
  try {
    let at = 0;
    for (const { line } of wholeLines(file)) visit(line, ++at);
  } finally {
    closeSync(file);
  }
}
