import { interpolate } from "../../numeric/tables.js";
import type { LogColumns } from "./log.js";
import { filled } from "./odometer.js";
import type { Placed } from "./place.js";

/** How the train was driven: a speed at each place, and where it stood. */
export interface Journey {
  /** Metres since the log began, growing, and how fast it was there. */
  readonly run_m: Float64Array;
  readonly speed_mps: Float64Array;
  readonly stands: readonly Stand[];
  readonly length_m: number;
  readonly time_s: number;
  /** Of the head where it begins, from 0. */
  readonly begins_m: number;
  readonly gaps: readonly Gap[];
}

export interface Stand {
  readonly at_m: number;
  readonly for_s: number;
}

/** Readings so far apart that nothing is known between them. */
export interface Gap {
  /** The reading after it, counted from 0. */
  readonly reading: number;
  readonly for_s: number;
}

/** Slower it stands, or nearly; readings there are left out, m/s. */
export const STANDS_mps = 0.1;
/** Shorter it did not stop, s. */
const SHORTEST_STAND_s = 3;
/** Rougher accelerations than this would be made of what a speed is logged off by: it is evened out until they are not. */
const ROUGH_mps2 = 0.003;
/** But between so much, one standard deviation of the bell. */
const EVENED_s = [1.2, 8] as const;
/** Longer, and several times the usual, is a gap, s. */
const LEAST_GAP_s = 10;
const GAP_TIMES = 5;
/** Nearer places are one, m. */
const NEAREST_m = 0.02;

/** The usual time from one reading to the next, s. */
export function usualInterval_s(time_s: ArrayLike<number>): number {
  const some = Math.min(time_s.length - 1, 2001);
  const stride = Math.max(1, Math.floor((time_s.length - 1) / some));
  const steps = Array.from({ length: some }, (_, i) => time_s[i * stride + 1] - time_s[i * stride]);
  return steps.sort((a, b) => a - b)[some >> 1];
}

export const longestStep_s = (time_s: ArrayLike<number>): number =>
  Math.max(LEAST_GAP_s, GAP_TIMES * usualInterval_s(time_s));

/** The driving that a log tells of, evened out as far as its readings scatter: acceleration is a difference of speeds. */
export function journeyOf(log: LogColumns, { run_m, begins_m }: Placed, lap_m: number): Journey {
  const time_s = Float64Array.from(log.time_s);
  const n = time_s.length;
  const every_s = Math.max(1, usualInterval_s(time_s));
  const count = Math.max(2, Math.ceil((time_s[n - 1] - time_s[0]) / every_s) + 1);
  const grid = Float64Array.from({ length: count }, (_, k) => Math.min(time_s[0] + k * every_s, time_s[n - 1]));
  const at_m = grid.map((time) => interpolate(time_s, run_m, time));
  const told = log.speed && means(time_s, filled(time_s, log.speed), grid, every_s);
  const sd_s = bellFor_s(told ?? at_m, every_s, told ? 1 : 2);
  const even_m = told ? at_m : evened(at_m, sd_s / every_s);
  const speed = told ? evened(told, sd_s / every_s) : slopes(even_m, every_s);
  return {
    ...knots(even_m, speed),
    stands: standsIn(at_m, speed, every_s),
    length_m: even_m[count - 1] - even_m[0],
    time_s: time_s[n - 1] - time_s[0],
    begins_m: lap_m > 0 ? begins_m - Math.floor(begins_m / lap_m) * lap_m : begins_m,
    gaps: gapsIn(time_s),
  };
}

/** Of the readings about each time, their mean; where there is none, straight between. */
function means(time_s: Float64Array, of: Float64Array, grid: Float64Array, every_s: number): Float64Array {
  const sums = new Float64Array(grid.length);
  const counts = new Float64Array(grid.length);
  for (let i = 0; i < time_s.length; i++) {
    const k = Math.min(grid.length - 1, Math.round((time_s[i] - time_s[0]) / every_s));
    sums[k] += of[i];
    counts[k]++;
  }
  return sums.map((sum, k) => (counts[k] > 0 ? sum / counts[k] : interpolate(time_s, of, grid[k])));
}

/** Eight in ten of a normal distribution lie within so many standard deviations. */
const EIGHT_IN_TEN = 1.2815515655446004;

/**
 * How wide a bell must be for the acceleration to be no rougher than is borne. Evened out by one of t seconds, values that
 * scatter by s every h seconds have a slope that scatters by s √(h / (4 √π t³)), and a bend that scatters by
 * s √(3 h / (8 √π t⁵)): integrals of the bell's own slopes.
 * @param times that it takes a slope of the values to be an acceleration
 */
function bellFor_s(values: Float64Array, every_s: number, times: 1 | 2): number {
  const bends = Array.from(values.subarray(2), (each, i) => Math.abs(each - 2 * values[i + 1] + values[i])).sort(
    (a, b) => a - b,
  );
  // Of three neighbours that scatter alike the bend scatters by √6; the few great ones are starts and stops.
  const scatter = (bends[Math.floor(0.8 * bends.length)] ?? 0) / EIGHT_IN_TEN / Math.sqrt(6);
  const [factor, power] = times === 1 ? [1 / (4 * Math.sqrt(Math.PI)), 3] : [3 / (8 * Math.sqrt(Math.PI)), 5];
  const bell_s = (factor * every_s * (scatter / ROUGH_mps2) ** 2) ** (1 / power);
  return Math.min(EVENED_s[1], Math.max(EVENED_s[0], bell_s));
}

/** Weighted by a bell of so many places, its ends cut where the values end. */
function evened(values: Float64Array, sd: number): Float64Array {
  const reach = Math.ceil(3 * sd);
  if (reach < 1) return values;
  const bell = Array.from({ length: 2 * reach + 1 }, (_, j) => Math.exp(-0.5 * ((j - reach) / sd) ** 2));
  return values.map((_, k) => {
    // As far on one side as on the other, or a ramp would be drawn in at its ends.
    const near = Math.min(reach, k, values.length - 1 - k);
    let [sum, weight] = [0, 0];
    for (let j = -near; j <= near; j++) {
      sum += bell[j + reach] * values[k + j];
      weight += bell[j + reach];
    }
    return sum / weight;
  });
}

const slopes = (values: Float64Array, every: number): Float64Array =>
  values.map((_, k) => {
    const [a, b] = [Math.max(0, k - 1), Math.min(values.length - 1, k + 1)];
    return (values[b] - values[a]) / ((b - a) * every);
  });

/** A speed for each place once. */
function knots(at_m: Float64Array, speed: Float64Array): Pick<Journey, "run_m" | "speed_mps"> {
  const run_m: number[] = [0];
  const speed_mps: number[] = [Math.max(0, speed[0])];
  for (let k = 1; k < at_m.length; k++) {
    const here_m = at_m[k] - at_m[0];
    if (here_m > run_m[run_m.length - 1] + NEAREST_m) {
      run_m.push(here_m);
      speed_mps.push(Math.max(0, speed[k]));
    } else speed_mps[speed_mps.length - 1] = Math.max(0, speed[k]);
  }
  return { run_m: Float64Array.from(run_m), speed_mps: Float64Array.from(speed_mps) };
}

/** Where it stood on the way; at its beginning and its end it is not waited for. */
function standsIn(at_m: Float64Array, speed: Float64Array, every_s: number): Stand[] {
  const stands: Stand[] = [];
  for (let k = 0; k < speed.length; ) {
    if (speed[k] >= STANDS_mps) {
      k++;
      continue;
    }
    let to = k;
    while (to + 1 < speed.length && speed[to + 1] < STANDS_mps) to++;
    const for_s = (to - k + 1) * every_s;
    if (k > 0 && to < speed.length - 1 && for_s >= SHORTEST_STAND_s)
      stands.push({ at_m: at_m[(k + to) >> 1] - at_m[0], for_s });
    k = to + 1;
  }
  return stands;
}

function gapsIn(time_s: Float64Array): Gap[] {
  const longest_s = longestStep_s(time_s);
  const gaps: Gap[] = [];
  for (let i = 1; i < time_s.length; i++)
    if (time_s[i] - time_s[i - 1] > longest_s) gaps.push({ reading: i, for_s: time_s[i] - time_s[i - 1] });
  return gaps;
}
