import { type Cases, counted, noCases } from "./cases.js";
import { lackKind } from "./lacks.js";
import type { Columns, SweptRow } from "./rows.js";
import { fallsShort, figureIn, rowIn, wentWell } from "./rows.js";
import { before, counts, tied, type Wanted } from "./wanted.js";
import { type Warned, warn } from "./warned.js";

/** What is told of a sweep, gathered a row at a time: as much for a million cases as for ten. */
export interface Found {
  columns: Columns;
  wanted: Wanted;
  rows: number;
  /** How many of each outcome. */
  outcomes: Record<string, number>;
  /** Of cases that came to their end, those that fall short of something. */
  short: number;
  /** Of each kind of lack, the cases that have it. */
  lacks: Map<string, Cases>;
  warned: Map<string, Warned>;
  best: SweptRow[];
  /** How many are as good as the first of the best, itself among them. */
  ties: number;
  /** Of each need, how many meet it, and which comes nearest of those that do not. */
  needs: { met: number; nearest: SweptRow | undefined }[];
  /** Of each figure that has a band, the cases of which fewer than nineteen in twenty draws have the figure, and the least share. */
  rarely: Map<string, { cases: Cases; least: number }>;
  /** The first that did not come to their end. */
  failed: SweptRow[];
  /** The first of those that could not be used, or not be finished: each says why. */
  wrong: SweptRow[];
  /** All, while they are not too many to be kept. */
  kept: SweptRow[];
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
export const MOST_FAILED = 20;
/** More than these want a file: nobody waits for them twice, and no document has more rows. */
export const MOST_KEPT = 10_000;
/** Lacks of different kinds: more than there are, but for needs. */
const MOST_LACKS = 100;
/** A figure that so many draws have is told without its share. */
const COUNTED_ON = 0.95;

export const nothingFound = (columns: Columns, wanted: Wanted): Found => ({
  columns,
  wanted,
  rows: 0,
  outcomes: {},
  short: 0,
  lacks: new Map(),
  warned: new Map(),
  best: [],
  ties: 0,
  needs: wanted.needs.map(() => ({ met: 0, nearest: undefined })),
  rarely: new Map(),
  failed: [],
  wrong: [],
  kept: [],
});

export function find(found: Found, line: string): void {
  const { wanted } = found;
  const row = rowIn(line, found.columns);
  row.short = row.short.filter((lack) => counts(lack, wanted));
  row.missed = wentWell(row) ? wanted.needs.filter((need) => !need.holds(row)).map(({ text }) => text) : [];
  found.rows++;
  found.outcomes[row.outcome] = (found.outcomes[row.outcome] ?? 0) + 1;
  if (wentWell(row) && fallsShort(row)) found.short++;
  if (!wentWell(row) && found.failed.length < MOST_FAILED) found.failed.push(row);
  if (row.why !== "" && found.wrong.length < MOST_FAILED) found.wrong.push(row);
  if (found.kept.length < MOST_KEPT) found.kept.push(row);
  lookAtLacks(found, row);
  lookAtBands(found, row);
  warn(found.warned, row);
  if (!wentWell(row)) return;
  lookAtNeeds(found, row);
  if (figureOf(row, found) !== undefined) rankIn(found, row);
}

function lookAtLacks({ lacks }: Found, row: SweptRow): void {
  for (const lack of new Set([...row.short, ...row.missed].map(lackKind))) {
    const cases = lacks.get(lack) ?? noCases();
    if (lacks.size < MOST_LACKS) lacks.set(lack, cases);
    counted(cases, row.number);
  }
}

function lookAtBands({ rarely }: Found, { number, figures, told_in }: SweptRow): void {
  for (const [name, share] of Object.entries(told_in)) {
    // What has no figure itself says so by itself.
    if (share >= COUNTED_ON || figures[name] === null) continue;
    const known = rarely.get(name) ?? { cases: noCases(), least: 1 };
    rarely.set(name, known);
    counted(known.cases, number);
    known.least = Math.min(known.least, share);
  }
}

function lookAtNeeds({ needs, wanted }: Found, row: SweptRow): void {
  wanted.needs.forEach((need, i) => {
    const seen = needs[i];
    if (!seen) return;
    const off = need.off(row);
    if (need.holds(row)) seen.met++;
    else if (off !== undefined && off < ((seen.nearest && need.off(seen.nearest)) ?? Number.POSITIVE_INFINITY))
      seen.nearest = row;
  });
}

function rankIn(found: Found, row: SweptRow): void {
  const { best, wanted } = found;
  const [first] = best;
  if (!first || (!tied(row, first, wanted) && before(row, first, wanted) < 0)) found.ties = 1;
  else if (tied(row, first, wanted)) found.ties++;
  best.push(row);
  best.sort((a, b) => before(a, b, wanted));
  // What misses a need is told only where nothing meets them all.
  const met = best[0]?.missed.length === 0;
  found.best = best.filter(({ missed }) => !met || missed.length === 0).slice(0, MOST_BEST);
}

/** The figure that is ranked by, of a case that came to its end. */
export const figureOf = (row: SweptRow | undefined, { wanted }: Found): number | undefined =>
  figureIn(row, wanted.best.name);
