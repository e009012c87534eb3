import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";
import type { BenchMark, LevelPoint } from "./levelled.js";

/** What decimals of a millimetre leave over. */
const ROUNDING_m = 1e-9;

export const fits = (missed_m: number, allowed_m: number): boolean => Math.abs(missed_m) <= allowed_m + ROUNDING_m;

/** What a book misses each of its later bench marks by, and whether that is allowed since the one before. */
export function benchMarks(
  points: readonly LevelPoint[],
  known: readonly number[],
  class_mm: number,
  per: "km" | "setups",
): BenchMark[] {
  const misses = (i: number) => points[i].reduced_m - (points[i].known_level_m as number);
  return known.map((i, k) => {
    const before = k === 0 ? 0 : known[k - 1];
    const grown_m = misses(i) - (k === 0 ? 0 : misses(before));
    const allowed_m = allowed(points, before, i, class_mm, per);
    return {
      place: points[i].place,
      distance_m: points[i].distance_m,
      known_level_m: points[i].known_level_m as number,
      misclosure_m: misses(i),
      allowed_m,
      accepted: allowed_m === null ? null : fits(grown_m, allowed_m),
    };
  });
}

/** From place to place, m; nothing where their distances are not known. */
export function allowed(
  points: readonly LevelPoint[],
  from: number,
  to: number,
  class_mm: number,
  per: "km" | "setups",
): number | null {
  if (per === "setups") return (class_mm * Math.sqrt(setupsBetween(points, from, to))) / 1000;
  const [from_m, to_m] = [points[from].distance_m, points[to].distance_m];
  return from_m === null || to_m === null ? null : (class_mm * Math.sqrt((to_m - from_m) / 1000)) / 1000;
}

/** Two places of one set-up have that between them. */
const setupsBetween = (points: readonly LevelPoint[], from: number, to: number): number =>
  Math.max(1, points[to].setup - (from === 0 ? 0 : points[from].setup));

/** From one bench mark to the next in proportion to distance, or to the set-ups through which a place was sighted. */
export function spread(points: LevelPoint[], known: readonly number[], by: "distance" | "setups"): number[] {
  const along = (i: number): number => {
    if (by === "distance") return points[i].distance_m as number;
    return i === 0 ? 0 : points[i].setup;
  };
  const misses = (i: number) => (i === 0 ? 0 : points[i].reduced_m - (points[i].known_level_m as number));
  const marks = [0, ...known];
  return points.map((point, i) => {
    const next = marks.find((mark) => mark >= i && mark > 0);
    const before = marks.findLast((mark) => mark < i || mark === 0) ?? 0;
    const to = next ?? before;
    const whole = along(to) - along(before);
    const share = whole > 0 ? Math.min(1, Math.max(0, (along(i) - along(before)) / whole)) : 1;
    const off_m = misses(before) + (misses(to) - misses(before)) * share;
    point.correction_m = -off_m;
    point.level_m = point.reduced_m - off_m;
    return share;
  });
}

/**
 * Nineteen in twenty of each level, from the error of a reading. A set-up carries a level on by two readings; what is spread
 * takes its share from those before a place and its share from those behind. An intermediate sight has its own reading besides.
 * @param shares of the misclosure, as spread; absent where it is not
 */
export function doubts(
  points: LevelPoint[],
  intermediate: readonly boolean[],
  known: readonly number[],
  shares: readonly number[] | undefined,
  sd_m: number,
): void {
  const marks = [0, ...known];
  for (const [i, point] of points.entries()) {
    const before = marks.findLast((mark) => mark < i) ?? 0;
    const after = marks.find((mark) => mark >= i);
    const held = shares !== undefined && after !== undefined;
    if (i === 0 || (held && after === i)) continue;
    const share = held ? shares[i] : 0;
    const own = intermediate[i] ? 1 : 0;
    const from = 2 * (point.setup - beganIn(points, intermediate, before)) - own;
    const to = held ? 2 * (points[after].setup - point.setup) + own : 0;
    point.doubt_of_readings_m = NINETEEN_IN_TWENTY * sd_m * Math.sqrt(from * (1 - share) ** 2 + to * share ** 2 + own);
    point.doubt_m = point.doubt_of_readings_m;
  }
}

/** Of the rise from one place to a later one, the readings that it is made of. */
export const readingsBetween = (
  points: readonly LevelPoint[],
  intermediate: readonly boolean[],
  a: number,
  b: number,
): number => 2 * (points[b].setup - beganIn(points, intermediate, a));

/** The set-ups that were over when a place was sighted, from which others are sighted now. */
const beganIn = (points: readonly LevelPoint[], intermediate: readonly boolean[], i: number): number =>
  i === 0 ? 0 : points[i].setup - (intermediate[i] ? 1 : 0);
