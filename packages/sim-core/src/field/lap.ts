import type { GlobePlace } from "./geodesic.js";
import { flatFrom, OFF_m, type Way } from "./way.js";

/** Where a way comes round to a place where it was before, heading as it did then. */
export interface Lap {
  /** Place in the way at which the lap begins. */
  from: number;
  /** The lap's last leg ends this share of the way from place `to` to the next; 0 where the way ends there. */
  to: number;
  share: number;
  /** What is still wanting to the place where it began, where the way ends short of it, m. */
  short_m: number;
}

/** Two fixes of one place, each as far off as it may be, to either side. */
const SAME_m = Math.SQRT2 * OFF_m;
/** Nothing that is ridden goes round in less: common practice, no source. */
const SHORTEST_m = 30;
/** Heading alike within 60°: between two fixes a garden's curve turns by nearly as much. */
const ALIKE = 0.5;
/** A way that only touches itself goes on elsewhere; one that comes round stays with itself for so long, or ends. */
const FOLLOWED_m = 40;

type Flat = readonly [east_m: number, north_m: number];

/** The first lap of a way; nothing where it never comes round. */
export function lapOf(fixes: readonly GlobePlace[], way: Way): Lap | undefined {
  const at = way.fixes.map((fix) => fixes[fix]).map(flatFrom(fixes[way.fixes[0]]));
  const headings = at.map((_, i) => headingAt(at, i));
  const near = nearBy(at);
  const seen = (i: number): number | undefined => {
    const alike = near(i).filter(
      (j) => way.along_m[i] - way.along_m[j] > SHORTEST_m && dot(headings[i], headings[j]) > ALIKE,
    );
    return alike.length === 0
      ? undefined
      : alike.reduce((a, b) => (apart(at[a], at[i]) <= apart(at[b], at[i]) ? a : b));
  };
  for (let i = 1; i < at.length; i++) {
    const from = seen(i);
    if (from !== undefined && followed(way, i, seen)) return closed(at, from, i - 1, Math.min(at.length, i + 4));
  }
  return endsWhereItBegan(at, way);
}

/**
 * A receiver that stands at the end of its lap wanders, and heads anywhere: then it is enough that the way ends about where it
 * began, and heads there about as it did.
 */
function endsWhereItBegan(at: readonly Flat[], { along_m }: Way): Lap | undefined {
  const whole_m = along_m[along_m.length - 1];
  const part_m = Math.min(FOLLOWED_m, whole_m / 8);
  const out = along_m.findIndex((each) => each >= part_m);
  const home = along_m.findLastIndex((each) => each <= whole_m - part_m);
  const ahead: Flat = [at[out][0] - at[0][0], at[out][1] - at[0][1]];
  const back: Flat = [at[0][0] - at[home][0], at[0][1] - at[home][1]];
  const lap = closed(at, 0, Math.max(home, 0), at.length);
  return whole_m > SHORTEST_m && lap.off_m < 2 * OFF_m && dot(ahead, back) > 0 ? lap : undefined;
}

function followed(way: Way, i: number, seen: (i: number) => number | undefined): boolean {
  for (let k = i + 1; k < way.along_m.length && way.along_m[k] - way.along_m[i] < FOLLOWED_m; k++)
    if (seen(k) === undefined) return false;
  return true;
}

/** Where the way, from one of its places to before another, passes nearest to the place at which the lap began. */
function closed(at: readonly Flat[], from: number, first: number, end: number): Lap & { off_m: number } {
  let best = { from, to: first, share: 0, short_m: 0, off_m: Number.POSITIVE_INFINITY };
  for (let k = first; k + 1 < end; k++) {
    const leg: Flat = [at[k + 1][0] - at[k][0], at[k + 1][1] - at[k][1]];
    const to: Flat = [at[from][0] - at[k][0], at[from][1] - at[k][1]];
    const share = Math.min(1, Math.max(0, dot(leg, to) / dot(leg, leg)));
    const off_m = Math.hypot(to[0] - share * leg[0], to[1] - share * leg[1]);
    if (off_m < best.off_m) best = { from, to: k, share, short_m: 0, off_m };
  }
  const ends = best.to + 2 === at.length && best.share === 1;
  return ends ? { ...best, to: best.to + 1, share: 0, short_m: best.off_m } : best;
}

const apart = (a: Flat, b: Flat): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
const dot = (a: Flat, b: Flat): number => a[0] * b[0] + a[1] * b[1];

function headingAt(at: readonly Flat[], i: number): Flat {
  const [a, b] = [at[Math.max(0, i - 1)], at[Math.min(at.length - 1, i + 1)]];
  const length_m = apart(a, b);
  return [(b[0] - a[0]) / length_m, (b[1] - a[1]) / length_m];
}

/** Which earlier places lie near a place, by squares of the map: a way may have a hundred thousand. */
function nearBy(at: readonly Flat[]): (i: number) => number[] {
  const squares = new Map<string, number[]>();
  const square = (value: number) => Math.floor(value / SAME_m);
  for (const [i, [east, north]] of at.entries()) {
    const key = `${square(east)},${square(north)}`;
    const there = squares.get(key);
    if (there) there.push(i);
    else squares.set(key, [i]);
  }
  return (i) => {
    const [column, row] = [square(at[i][0]), square(at[i][1])];
    const found: number[] = [];
    for (let c = column - 1; c <= column + 1; c++)
      for (let r = row - 1; r <= row + 1; r++)
        for (const j of squares.get(`${c},${r}`) ?? []) if (j < i && apart(at[i], at[j]) < SAME_m) found.push(j);
    return found;
  };
}
