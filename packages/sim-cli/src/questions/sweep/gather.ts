import { closeSync, existsSync, openSync, readdirSync, realpathSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { attempt } from "../../files/files.js";
import { UsageError } from "../../read/diagnostics.js";
import type { SweepFlags } from "./asked.js";
import { find, nothingFound, type SweepTold } from "./found.js";
import { mustHavePlaces } from "./places.js";
import { columnsIn } from "./rows.js";
import { mustFit } from "./seal.js";
import { wantedOf } from "./wanted.js";
import { openWritten, sweepFile, wholeLines } from "./written.js";

/** A part of a sweep, as its own first lines have it. */
interface Part {
  path: string;
  sweep: string;
  count: number;
  columns: string;
  /** Of its first row, from 1, and one after its last. */
  from: number;
  to: number;
}

const REMARK = /^# rideon (\S+ sweep [0-9a-f]+): (\d+) cases(?:, share \d+ of \d+)?$/;

/**
 * Puts the parts of a sweep together: what one machine would have written, byte for byte.
 * @param wanted the fingerprint of the sweep that they must be of, where that is known
 * @throws UsageError where cases are missing or doubled, or a part is of another sweep; DiskError
 */
export function gathered(flags: SweepFlags, wanted?: string): SweepTold {
  if (flags.out === undefined)
    throw new UsageError("--gather: --out tells the folder in which the whole is put together");
  const paths = [...new Set((flags.gather ?? []).flatMap(matching))];
  const out = sweepFile(flags.out, undefined);
  const reads = paths.filter((path) => !isSame(path, out));
  const parts = reads.map(partIn);
  const wrong = [...foreign(parts), ...gaps(parts)];
  if (wrong.length > 0) throw new UsageError(wrong.map((each) => `--gather: ${each}`).join("\n"));
  const [first] = parts as [Part];
  if (wanted !== undefined && wanted !== fingerprintIn(first.sweep))
    throw new UsageError(
      `--gather: ${first.path} is of another sweep than the options tell, or of files that have changed since`,
    );
  mustHavePlaces(flags, out, reads);
  const columns = columnsIn(first.columns);
  const found = nothingFound(columns, wantedOf(columns, flags.best, flags.need ?? []));
  const head = [`# rideon ${first.sweep}: ${first.count} cases`, first.columns] as const;
  const whole = openWritten(out, head, 0, (line, at) => {
    mustFit(line, fingerprintIn(first.sweep), out, at);
    find(found, line);
  });
  try {
    for (const { path, from } of parts.toSorted((a, b) => a.from - b.from))
      eachRow(
        path,
        (line, number) => {
          if (number <= whole.done) return;
          whole.add(`${line}\n`);
          find(found, line);
        },
        from,
      );
  } finally {
    whole.close();
  }
  return { found, count: first.count, path: out, reads };
}

const fingerprintIn = (sweep: string): string => sweep.replace(/^.* /, "");

/** One file by two names. */
const isSame = (path: string, other: string): boolean =>
  existsSync(other) && realpathSync(path) === realpathSync(other);

/** Files of a name with stars in it; the shell may have left it as it is. @throws UsageError where there is none */
function matching(pattern: string): string[] {
  const name = basename(pattern);
  if (!name.includes("*")) {
    if (existsSync(pattern)) return [pattern];
    throw new UsageError(`--gather ${pattern}: there is no such file`);
  }
  const folder = dirname(pattern);
  const like = new RegExp(
    `^${name
      .split("*")
      .map((part) => part.replaceAll(/[.+?^${}()|[\]\\]/g, "\\$&"))
      .join(".*")}$`,
  );
  const found = (existsSync(folder) ? readdirSync(folder) : []).filter((each) => like.test(each)).sort();
  if (found.length === 0) throw new UsageError(`--gather ${pattern}: there is no file of such a name`);
  return found.map((each) => join(folder, each));
}

function partIn(path: string): Part {
  let [sweep, count, columns, from, to] = ["", 0, "", 0, 0];
  let at = 0;
  const file = attempt(path, () => openSync(path, "r"));
  try {
    for (const { line } of wholeLines(file)) {
      at++;
      if (at === 1) {
        const [, of = "", cases] = REMARK.exec(line) ?? [];
        if (of === "")
          throw new UsageError(`--gather: ${path} is no part of a sweep: its first line is not that of one`);
        [sweep, count] = [of, Number(cases)];
      } else if (at === 2) columns = line;
      else {
        const number = numberOf(line);
        mustFit(line, fingerprintIn(sweep), path, at);
        if (at === 3) [from, to] = [number, number];
        if (number !== to)
          throw new UsageError(
            `--gather: ${path}:${at}: case ${to} is wanted there, and found was ${line.slice(0, 40)}; run its share again: that works out what is missing`,
          );
        to++;
      }
    }
  } finally {
    closeSync(file);
  }
  return { path, sweep, count, columns, from, to };
}

const numberOf = (line: string): number => Number(/^(\d+),/.exec(line)?.[1]);

function eachRow(path: string, visit: (line: string, number: number) => void, from: number): void {
  const file = attempt(path, () => openSync(path, "r"));
  try {
    let at = 0;
    for (const { line } of wholeLines(file)) if (at++ >= 2) visit(line, from + at - 3);
  } finally {
    closeSync(file);
  }
}

/** Parts of another sweep than the first, or of one that asks otherwise. */
function foreign([first, ...others]: readonly Part[]): string[] {
  if (!first) return ["there is no part"];
  return others
    .filter(({ sweep, count, columns }) => sweep !== first.sweep || count !== first.count || columns !== first.columns)
    .map(({ path }) => `${path} is of another sweep than ${first.path}, or of files that have changed between them`);
}

/** Cases that no part has, and those that two have. */
function gaps(parts: readonly Part[]): string[] {
  const count = parts[0]?.count ?? 0;
  const told: string[] = [];
  const cases = (from: number, to: number) => (from === to - 1 ? `case ${from}` : `cases ${from} to ${to - 1}`);
  let next = 1;
  let before: Part | undefined;
  for (const part of parts.filter(({ from, to }) => to > from).toSorted((a, b) => a.from - b.from)) {
    if (part.from > next)
      told.push(
        `${cases(next, part.from)} ${part.from - next === 1 ? "is" : "are"} missing${before ? `: ${before.path} ends at ${next - 1}; was its share finished? Run it again, it goes on where it ended` : ""}`,
      );
    if (part.from < next)
      told.push(
        `${cases(part.from, Math.min(next, part.to))} ${Math.min(next, part.to) - part.from === 1 ? "stands" : "stand"} both in ${before?.path} and in ${part.path}`,
      );
    if (part.to > next) [next, before] = [part.to, part];
  }
  if (next <= count)
    told.push(
      `${cases(next, count + 1)} ${next === count ? "is" : "are"} missing${before ? `: ${before.path} ends at ${next - 1}, or a share was not run` : ""}`,
    );
  return told;
}
