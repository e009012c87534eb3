import { closeSync, existsSync, fstatSync, ftruncateSync, openSync, readSync, writeSync } from "node:fs";
import { dirname, join } from "node:path";
import { attempt, DiskError, makeFolder } from "../../files/files.js";
import { UsageError } from "../../read/diagnostics.js";

/** The rows of a sweep as they stand in its file: each whole, in the order of their numbers. */
export interface Written {
  /** Rows that were there. */
  readonly done: number;
  /** Adds a row, in one piece. @throws DiskError */
  add(line: string): void;
  close(): void;
}

/** Two lines: what it is a sweep of, and its columns. */
export type Head = readonly [remark: string, columns: string];

/**
 * Opens the file of a sweep, or goes on where it was interrupted: what stands behind the last whole row is cut off.
 * @param visit told of each row that is there, and of its number in the file
 * @throws UsageError where it is another sweep's; DiskError
 */
export function openWritten(
  path: string,
  head: Head,
  first: number,
  visit: (line: string, at: number) => void,
): Written {
  makeFolder(dirname(path));
  const there = existsSync(path);
  const file = attempt(path, () => openSync(path, there ? "r+" : "wx+"));
  let size = 0;
  let done = 0;
  try {
    const begun = beginningOf(file);
    // A first line that was cut off is the sweep's own or somebody's only line.
    if (!begun.includes("\n") && !`${head[0]}\n`.startsWith(begun)) throw another(path, begun);
    const heads: string[] = [];
    for (const { line, end } of wholeLines(file)) {
      if (heads.length < head.length) {
        heads.push(line);
        if (line !== head[heads.length - 1]) throw another(path, heads.length === 1 ? line : undefined);
      } else {
        const number = Number(/^(\d+),/.exec(line)?.[1]);
        if (number !== first + done + 1)
          throw new UsageError(
            `${path}: row ${first + done + 1} is wanted after row ${first + done}, and found was: ${line.slice(0, 40)}`,
          );
        done++;
        visit(line, head.length + done);
      }
      size = end;
    }
    if (heads.length > 0 && heads.length < head.length) size = 0;
    ftruncateSync(file, size);
    if (size === 0) size = write(path, file, 0, `${head.join("\n")}\n`);
  } catch (error) {
    closeSync(file);
    throw error;
  }
  return {
    done,
    add(line) {
      // A second sweep into the same file would make rubbish of it.
      if (fstatSync(file).size !== size) throw new DiskError(`${path}: something else writes into it`);
      size = write(path, file, size, line);
    },
    close: () => closeSync(file),
  };
}

/** @returns where it ends then */
function write(path: string, file: number, at: number, text: string): number {
  const bytes = Buffer.from(text);
  attempt(path, () => {
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done, bytes.length - done, at + done);
  });
  return at + bytes.length;
}

/** By which a sweep's file is known, whosesoever it is. */
const SWEEPS = /^# rideon \S+ sweep [0-9a-f]+: /;

/** @param first its first line, where that is another than is wanted */
function another(path: string, first: string | undefined): UsageError {
  if (first !== undefined && !SWEEPS.test(first))
    return new UsageError(`${path} is no sweep's file, and is left as it is; give another folder with --out`);
  const what =
    first === undefined ? "a sweep with other columns" : "of another sweep, or of files that have changed since";
  return new UsageError(`${path} is ${what}; give another folder with --out, or take that one away`);
}

/** Longer than any first line. */
const LINE_bytes = 4096;

function beginningOf(file: number): string {
  const bytes = Buffer.alloc(LINE_bytes);
  return bytes.subarray(0, readSync(file, bytes, 0, LINE_bytes, 0)).toString();
}

const CHUNK_bytes = 1 << 20;

/** Lines that end, and where. */
export function* wholeLines(file: number): Generator<{ line: string; end: number }> {
  const chunk = Buffer.alloc(CHUNK_bytes);
  let rest = Buffer.alloc(0);
  let [at, end] = [0, 0];
  for (;;) {
    const got = readSync(file, chunk, 0, CHUNK_bytes, at);
    if (got === 0) return;
    at += got;
    rest = Buffer.concat([rest, chunk.subarray(0, got)]);
    for (let mark = rest.indexOf(10); mark >= 0; mark = rest.indexOf(10)) {
      end += mark + 1;
      yield { line: rest.subarray(0, mark).toString(), end };
      rest = rest.subarray(mark + 1);
    }
  }
}

export const sweepFile = (out: string, share: { k: number; of: number } | undefined): string =>
  join(out, share ? `sweep-${share.k}-of-${share.of}.csv` : "sweep.csv");
