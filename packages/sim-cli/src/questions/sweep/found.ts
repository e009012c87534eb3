import type { Columns, SweptRow } from "./rows.js";
import { figureIn, rowIn } from "./rows.js";
import { before, counted, counts, type Wanted } from "./wanted.js";

/** What is told of a sweep, gathered a row at a time: as much for a million cases as for ten. */
export interface Found {
  columns: Columns;
  wanted: Wanted;
  rows: number;
  /** How many of each outcome. */
  outcomes: Record<string, number>;
  /** Of cases that came to their end, those that fall short of something. */
  short: number;
  best: SweptRow[];
  /** The first that could not be used. */
  wrong: SweptRow[];
  /** All, while they are few enough to be drawn. */
  drawn: SweptRow[];
}

/** What a sweep came to, and where it stands. */
export interface SweepTold {
  found: Found;
  /** Cases there are. */
  count: number;
  path: string | undefined;
  /** Files that were read: no other takes their place. */
  reads: readonly string[];
}

const MOST_BEST = 10;
const MOST_WRONG = 3;
/** A picture has room for no more. */
export const MOST_DRAWN = 1600;

export const nothingFound = (columns: Columns, wanted: Wanted): Found => ({
  columns,
  wanted,
  rows: 0,
  outcomes: {},
  short: 0,
  best: [],
  wrong: [],
  drawn: [],
});

export function find(found: Found, line: string): void {
  const row = rowIn(line, found.columns);
  row.short = row.short.filter((lack) => counts(lack, found.wanted));
  found.rows++;
  found.outcomes[row.outcome] = (found.outcomes[row.outcome] ?? 0) + 1;
  if (row.outcome === "completed" && row.short.length > 0) found.short++;
  if (row.why !== "" && found.wrong.length < MOST_WRONG) found.wrong.push(row);
  if (found.drawn.length <= MOST_DRAWN) found.drawn.push(row);
  if (counted(row, found.wanted) === undefined) return;
  found.best.push(row);
  found.best.sort((a, b) => before(a, b, found.wanted));
  found.best.length = Math.min(found.best.length, MOST_BEST);
}

/** The figure that is ranked by, of a case that came to its end. */
export const figureOf = (row: SweptRow | undefined, { wanted }: Found): number | undefined =>
  figureIn(row, wanted.best.name);
