import { readFileSync, realpathSync } from "node:fs";
import { type Fitted, keyAt } from "@rideon/sim-core";
import { wholeFiles } from "../files/files.js";
import { UsageError } from "../read/diagnostics.js";
import { IntoError, type Put, putInto } from "../read/index.js";

/** A figure for a file, and which kind of file takes it. */
export interface PutFor extends Put {
  file: "plan" | "loco";
}

/** A file with measured figures put into it. */
export interface PutIn {
  path: string;
  /** Lines that changed, before and after. */
  shown: string[];
}

/** `0.0061 ± 0.0004`: as many places as the doubt is worth. */
export function withDoubt({ value, unit, low, high }: Fitted): string {
  // The wider side, where they differ.
  const half = Math.max(value - low, high - value);
  if (!(half > 0)) return `${Number(value.toPrecision(3))}${unit === "" ? "" : ` ${unit}`}`;
  const places = Math.min(9, Math.max(0, 1 - Math.floor(Math.log10(half))));
  return `${value.toFixed(places)} ± ${half.toFixed(places)}${unit === "" ? "" : ` ${unit}`}`;
}

/** What is put into a file: each figure with its doubt, and the day it was measured. */
export const putsOf = (fitted: readonly Fitted[], how: string, day = new Date()): PutFor[] =>
  // A figure that is no surer than nothing is none to go on, and one beyond its key's bounds no file may have.
  fitted
    .filter(({ path, value, low }) => low > 0 && value <= mostOf(path))
    .map((each) => ({
      file: each.path.startsWith("plan.") ? ("plan" as const) : ("loco" as const),
      path: each.path.replace(/^(?:loco|plan)\./, "").split("."),
      value: valueFor(each),
      comment: `measured ${day.toISOString().slice(0, 10)} ${how}`,
    }));

function mostOf(path: string): number {
  const { max = Number.POSITIVE_INFINITY } = (keyAt(path.replaceAll(".*", ".1")) ?? {}) as { max?: number };
  return max;
}

/** One side is so much wider than the other: then the ends are told. */
const LOPSIDED = 1.5;

/** As a file takes it: with ± its doubt, or from end to end where that would leave the bounds of its key or flatter a side. */
function valueFor(fitted: Fitted): string {
  const { path, value, low, high, unit } = fitted;
  const max = mostOf(path);
  const [down, up] = [value - low, high - value];
  const even = Math.max(down, up) <= LOPSIDED * Math.min(down, up) && value + Math.max(down, up) <= max;
  if (even || !(high > low)) return withDoubt(fitted);
  const places = Math.min(9, Math.max(0, 1 - Math.floor(Math.log10(high - low))));
  return `${low.toFixed(places)} to ${Math.min(max, high).toFixed(places)}${unit === "" ? "" : ` ${unit}`}`;
}

/** Is it a plan's file, or a loco's? A plan names its loco. @throws UsageError where it cannot be read */
export function whose(path: string): "plan" | "loco" {
  try {
    return /^loco[ \t]*:[ \t]*[^\s#]/m.test(readFileSync(path, "utf8")) ? "plan" : "loco";
  } catch {
    throw new UsageError(`--into ${path}: it cannot be read`);
  }
}

/** @param keys with their file in front: `loco.resistance.rolling` @throws UsageError where the file is of the other kind */
export function mustTake(path: string, keys: readonly string[]): void {
  const kind = whose(path);
  const other = kind === "plan" ? "loco" : "plan";
  const foreign = keys.filter((key) => key.startsWith(`${other}.`));
  if (foreign.length > 0)
    throw new UsageError(
      `--into ${path}: it is a ${kind}'s file, and ${foreign.join(", ")} ${foreign.length === 1 ? "stands" : "stand"} in the ${other}'s`,
    );
}

/** Lines to paste, block by block. */
export function pasted(puts: readonly Put[]): string[] {
  const lines: string[] = [];
  let open: readonly string[] = [];
  for (const { path, value, comment } of puts) {
    const blocks = path.slice(0, -1);
    for (const [i, name] of blocks.entries()) if (open[i] !== name) lines.push(`${"  ".repeat(i)}${name}:`);
    open = blocks;
    lines.push(`${"  ".repeat(blocks.length)}${path.at(-1)}: ${value}  # ${comment}`);
  }
  return lines;
}

/**
 * Puts figures into a file, whole or not at all.
 * @param reads files that are read, whose place none may take
 * @throws UsageError where the file is another kind than the figures are of; DiskError
 */
export function intoFile(path: string, puts: readonly PutFor[], reads: readonly string[]): PutIn {
  mustTake(
    path,
    puts.map((put) => `${put.file}.${put.path.join(".")}`),
  );
  const { text, changed } = putIn(path, puts);
  const files = wholeFiles(reads);
  // A link stays one: what it points to is written.
  files.write(realpathSync(path), text);
  files.finish();
  const shown = changed.flatMap(({ before, after }) => [
    ...(before === null ? [] : [`- ${before}`]),
    ...after.split("\n").map((line) => `+ ${line}`),
  ]);
  return { path, shown };
}

function putIn(path: string, puts: readonly Put[]) {
  try {
    return putInto(readFileSync(path, "utf8"), puts);
  } catch (error) {
    if (error instanceof IntoError) throw new UsageError(`--into ${path}: ${error.message}`);
    if ((error as NodeJS.ErrnoException).code) throw new UsageError(`--into ${path}: it cannot be read`);
    throw error;
  }
}
