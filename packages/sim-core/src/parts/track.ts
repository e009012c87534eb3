import type { Notes } from "../errors.js";
import { shown } from "../errors.js";
import { stretch } from "../numeric/tables.js";
import { type TrackColumns, UNFIT, type Unfit } from "./track.columns.js";

/**
 * A line of posts joined by straight stretches. Distance runs along the rail, so rise over distance is the sine of the
 * slope. Radius, limit and place belong to the stretch that starts at their post.
 */
export interface Track {
  readonly kind: "circuit" | "end-to-end";
  /** Length of the lap, or of the line, m. */
  readonly length_m: number;
  readonly distance_m: Float64Array;
  readonly height_m: Float64Array;
  /** By how much the rise from the first post may be off if each stretch errs the same way, nineteen in twenty, m. */
  readonly doubt_m: Float64Array;
  /** Why nobody may ride by these heights, the gravest reason of any stretch; null where nothing says so. */
  readonly levelling: Unfit | null;
  /** Which way that doubt is counted in the heights: 1 steeper uphill, -1 steeper downhill, 0 not at all. */
  readonly leaning: Leaning;
  /** Angle turned through from the first post, either hand: the integral of 1/radius, rad. */
  readonly turned_rad: Float64Array;
  /** Integral of the height from the first post, m². */
  readonly heightArea_m2: Float64Array;
  readonly limit_mps: Float64Array;
  readonly place: readonly string[];
  /** By how much the survey missed closing, m (0 for an end-to-end line), and how much may be spread untold. */
  readonly misclosure_m: number;
}

/** Heights as surveyed, or every stretch steeper uphill or downhill by its doubt. */
export type Leaning = -1 | 0 | 1;

/** Steeper than this is refused: nothing without a rack climbs it, so it is a slip of the pen. */
export const STEEPEST = 1 / 5;
/** Steeper than this is warned of: twice the usual greatest gradient of club main lines. */
export const WARNED_SINE = 1 / 25;
const TOLERANCE_SOURCE =
  "24 mm √km: fourth-order levelling, from a US table of 0.100 ft √mile; gradient columns a tenth of the climb";
/** Rough levelling: 24 mm times the root of the length in kilometres (fourth-order class of a US levelling table). */
export const closingTolerance_m = (length_m: number): number => 0.024 * Math.sqrt(length_m / 1000);
/** Gradient columns are rounded figures: a miss up to this share of the climb is spread. */
const GRADIENT_MISS = 0.1;

/** Makes the line from its columns; whatever cannot be used goes to `notes`, with the post it was found at. */
export function createTrack(columns: TrackColumns, kind: Track["kind"], spread: boolean, notes: Notes): Track {
  const first = columns.distance_m[0] ?? 0;
  const distance_m = Float64Array.from(columns.distance_m, (d) => d - first);
  if (first !== 0) {
    notes.warnings.push({
      code: "first_post",
      path: "track.1.distance",
      message: `the first post stands at ${shown(first, "m")}; chainages are counted from it`,
    });
  }
  const length_m = distance_m[distance_m.length - 1];
  const surveyed_m = columns.height_m ?? heightsFromGradients(distance_m, columns.sine ?? []);
  const misclosure_m = kind === "circuit" ? surveyed_m[surveyed_m.length - 1] - surveyed_m[0] : 0;
  if (misclosure_m !== 0) close(misclosure_m, surveyed_m, length_m, columns.height_m === undefined, spread, notes);
  const height_m = Float64Array.from(surveyed_m, (h, i) => h - (misclosure_m * distance_m[i]) / length_m);
  const missed_m = isRough(misclosure_m, surveyed_m, length_m, columns.height_m === undefined)
    ? Math.abs(misclosure_m)
    : 0;
  const turned_rad = cumulative(distance_m, (i) => columns.curvature_radpm?.[i] ?? 0);
  lookForSteepness(distance_m, height_m, notes);
  refuseTightness(columns.curvature_radpm ?? [], notes);
  return {
    kind,
    length_m,
    distance_m,
    height_m,
    // A survey that misses by too much does not say where: spread as asked, all of it may still lie in any one stretch.
    doubt_m: cumulative(distance_m, (i) =>
      Math.max(columns.sineDoubt?.[i] ?? 0, Math.min(1, missed_m / (distance_m[i + 1] - distance_m[i]))),
    ),
    levelling: UNFIT.find((each) => columns.levelling?.includes(each)) ?? (missed_m > 0 ? "not accepted" : null),
    leaning: 0,
    turned_rad,
    heightArea_m2: areasOf(distance_m, height_m),
    limit_mps: Float64Array.from(columns.limit_mps ?? columns.distance_m.map(() => Number.POSITIVE_INFINITY)),
    place: columns.place ?? columns.distance_m.map(() => ""),
    misclosure_m,
  };
}

function cumulative(distance_m: Float64Array, rate: (stretchIndex: number) => number): Float64Array {
  const sums = new Float64Array(distance_m.length);
  for (let i = 0; i + 1 < sums.length; i++) sums[i + 1] = sums[i] + rate(i) * (distance_m[i + 1] - distance_m[i]);
  return sums;
}

const areasOf = (distance_m: Float64Array, height_m: Float64Array): Float64Array =>
  cumulative(distance_m, (i) => (height_m[i] + height_m[i + 1]) / 2);

const heightsFromGradients = (distance_m: Float64Array, sine: readonly number[]): number[] =>
  Array.from(cumulative(distance_m, (i) => sine[i]));

function toleranceOf_m(heights: readonly number[], length_m: number, rounded: boolean): number {
  let climb_m = 0;
  for (let i = 1; i < heights.length; i++) climb_m += Math.max(0, heights[i] - heights[i - 1]);
  return Math.max(closingTolerance_m(length_m), rounded ? GRADIENT_MISS * climb_m : 0);
}

/** Does it miss by more than is spread untold? */
const isRough = (miss_m: number, heights: readonly number[], length_m: number, rounded: boolean): boolean =>
  miss_m !== 0 && Math.abs(miss_m) > toleranceOf_m(heights, length_m, rounded);

function close(
  miss_m: number,
  heights: readonly number[],
  length_m: number,
  rounded: boolean,
  spread: boolean,
  notes: Notes,
) {
  const tolerance_m = toleranceOf_m(heights, length_m, rounded);
  const miss = `the circuit ends ${shown(Math.abs(miss_m) * 1000, "mm")} ${miss_m > 0 ? "higher" : "lower"} than it starts`;
  const path = `track.${heights.length}.${rounded ? "gradient" : "height"}`;
  if (Math.abs(miss_m) <= tolerance_m) {
    if (Math.abs(miss_m) > 1e-9)
      notes.assumed.push({ key: "misclosure", value: `${miss}; spread along its length`, source: TOLERANCE_SOURCE });
    return;
  }
  if (spread) {
    notes.warnings.push({
      code: "misclosure",
      path,
      message: `${miss}; spread along its length as asked, and every gradient is in doubt by all of it, since nothing says where it lies`,
    });
    return;
  }
  notes.problems.push({
    path,
    message:
      `${miss}; at most ${shown(tolerance_m * 1000, "mm")} would be spread. Is the last row the first post again, at the length ` +
      "of the lap? For a line that does not close write kind: end-to-end; to spread it all the same, spread_misclosure: yes",
  });
}

/** A line that is wrong all along is told at its first stretches, and how many there are. */
const MOST_TOLD = 20;

function lookForSteepness(distance_m: Float64Array, height_m: Float64Array, notes: Notes) {
  let refused = 0;
  let warned = 0;
  const more = (count: number, limit: string) => `${count - MOST_TOLD} more stretches are steeper than ${limit}`;
  for (let i = 0; i + 1 < height_m.length; i++) {
    const sine = (height_m[i + 1] - height_m[i]) / (distance_m[i + 1] - distance_m[i]);
    if (Math.abs(sine) <= WARNED_SINE) continue;
    const found = `1 in ${shown(1 / Math.abs(sine))} from ${shown(distance_m[i], "m")} to ${shown(distance_m[i + 1], "m")}`;
    const path = `track.${i + 1}.gradient`;
    if (Math.abs(sine) > STEEPEST) {
      if (++refused > MOST_TOLD) continue;
      notes.problems.push({
        path,
        message: `${found} is steeper than 1 in 5; check distances and heights, and their units`,
      });
    } else {
      if (++warned > MOST_TOLD) continue;
      notes.warnings.push({ code: "steep", path, message: `${found} is steeper than 1 in 25; is that so?` });
    }
  }
  if (refused > MOST_TOLD) notes.problems.push({ path: "track", message: more(refused, "1 in 5") });
  if (warned > MOST_TOLD) notes.warnings.push({ code: "steep", path: "track", message: more(warned, "1 in 25") });
}

/** Nothing people can sit on goes round less, m: the smallest garden railways have 0.6 m (from memory). */
const TIGHTEST_m = 0.3;

function refuseTightness(curvature_radpm: readonly number[], notes: Notes) {
  for (const [i, each] of curvature_radpm.entries()) {
    if (Math.abs(each) <= 1 / TIGHTEST_m) continue;
    const message = `a radius of ${shown(1 / Math.abs(each), "m")} is less than any railway's; check it, and its unit`;
    notes.problems.push({ path: `track.${i + 1}.radius`, message });
  }
}

/** Where chainage `at_m` lies, with whole laps taken off a circuit. */
export const onTheLine = (track: Track, at_m: number): number =>
  track.kind === "circuit" ? at_m - Math.floor(at_m / track.length_m) * track.length_m : at_m;

/** Stretch that holds chainage `at_m` (already on the line); soonest found where `hint` is near. */
export const stretchAt = (track: Track, at_m: number, hint: number): number => stretch(track.distance_m, at_m, hint);

/** Integral of the rail height from the first post to `at_m`, m²: what gives a long vehicle's mean height. */
export function heightAreaTo_m2(track: Track, at_m: number): number {
  const x = onTheLine(track, at_m);
  const laps = Math.round((at_m - x) / track.length_m);
  const { distance_m: d, height_m: h, heightArea_m2: area } = track;
  const i = stretchAt(track, x, Math.floor((x / track.length_m) * d.length));
  const within = x - d[i];
  const sine = (h[i + 1] - h[i]) / (d[i + 1] - d[i]);
  // A circuit that leans ends higher or lower than it began, and its next lap goes on from there.
  const lean_m = track.leaning === 0 ? 0 : h[h.length - 1] - h[0];
  const leant_m2 = lean_m * laps * ((track.length_m * (laps - 1)) / 2 + x);
  return laps * area[area.length - 1] + leant_m2 + area[i] + within * (h[i] + (sine * within) / 2);
}

/** The same line seen from its other end, so that forward is positive again. */
export function mirrored(track: Track): Track {
  const { distance_m, height_m, doubt_m, turned_rad, heightArea_m2, length_m, limit_mps, place } = track;
  const n = distance_m.length;
  const back = (xs: Float64Array, whole: number) => Float64Array.from(xs, (_, i) => whole - xs[n - 1 - i]);
  const shifted = <T>(values: ArrayLike<T>) => Array.from(values, (_, i) => values[Math.max(0, n - 2 - i)]);
  return {
    ...track,
    distance_m: back(distance_m, length_m),
    height_m: Float64Array.from(height_m).reverse(),
    doubt_m: back(doubt_m, doubt_m[n - 1]),
    // What is steeper uphill one way is steeper downhill the other.
    leaning: (0 - track.leaning) as Leaning,
    turned_rad: back(turned_rad, turned_rad[n - 1]),
    heightArea_m2: back(heightArea_m2, heightArea_m2[n - 1]),
    limit_mps: Float64Array.from(shifted(limit_mps)),
    place: place.slice().reverse(),
  };
}

/**
 * The same line with every stretch as much steeper as its doubt, uphill or downhill the way it is seen. A circuit then does
 * not come round to its own height: for what is judged over a train's length or a stop, and not for a day's work.
 */
export function leant(track: Track, leaning: Leaning): Track {
  const { distance_m, doubt_m } = track;
  const by = leaning - track.leaning;
  if (by === 0 || doubt_m[doubt_m.length - 1] === 0) return track;
  const height_m = track.height_m.map((height, i) => height + by * doubt_m[i]);
  return { ...track, leaning, height_m, heightArea_m2: areasOf(distance_m, height_m) };
}
