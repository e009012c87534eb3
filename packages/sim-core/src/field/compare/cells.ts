import type { Journey } from "./journey.js";
import { longestStep_s, STANDS_mps } from "./journey.js";
import type { LogColumns, Logged } from "./log.js";
import { filled } from "./odometer.js";
import type { Placed } from "./place.js";

/** What is compared; the distance is what places it. */
export const COMPARED = [
  "speed",
  "motor_current",
  "battery_current",
  "battery_voltage",
  "temperature",
  "duty",
] as const satisfies readonly Logged[];
export type Compared = (typeof COMPARED)[number];

/** The line in pieces of equal length, and the journey over them. */
export interface Cells {
  readonly cell_m: number;
  /** In a lap, or in the line. */
  readonly round: number;
  /** That the journey touches: a lap's piece once for each lap. */
  readonly count: number;
  /** Of the first, counted from the first post. */
  readonly first: number;
  /** The journey's place is so far into the first. */
  readonly into_m: number;
}

/** Of one quantity, a mean for each piece; NaN where nothing is known. */
export type ByCell = Readonly<Record<Compared, Float64Array>>;

export const byCell = (of: (name: Compared) => Float64Array): ByCell =>
  Object.fromEntries(COMPARED.map((name) => [name, of(name)])) as unknown as ByCell;

export const less = (a: ByCell, b: ByCell): ByCell => byCell((name) => a[name].map((each, i) => each - b[name][i]));

/** A piece takes so long to run over, and is no shorter: a logger and a smoothed speed tell no more. */
const CELL_s = 6;
const SHORTEST_m = 3;
const MOST_A_ROUND = 120;

export function cellsOf(journey: Journey, length_m: number): Cells {
  const mean_mps = journey.length_m / Math.max(1, journey.time_s - journey.stands.reduce((sum, s) => sum + s.for_s, 0));
  const round = Math.min(MOST_A_ROUND, Math.max(1, Math.floor(length_m / Math.max(SHORTEST_m, CELL_s * mean_mps))));
  const cell_m = length_m / round;
  const first = Math.floor(journey.begins_m / cell_m);
  const into_m = journey.begins_m - first * cell_m;
  return { cell_m, round, first, into_m, count: Math.floor((into_m + journey.length_m) / cell_m) + 1 };
}

export const cellAt = ({ into_m, cell_m, count }: Cells, run_m: number): number =>
  Math.min(count - 1, Math.max(0, Math.floor((into_m + run_m) / cell_m)));

/** Which piece of the line a cell of the journey is. */
export const pieceOf = ({ first, round }: Cells, cell: number): number => (((first + cell) % round) + round) % round;

/** Sums of each quantity over the pieces, weighted. */
export function cellSums(count: number) {
  const sums = Object.fromEntries(COMPARED.map((name) => [name, new Float64Array(count)])) as Record<
    Compared,
    Float64Array
  >;
  const weights = Object.fromEntries(COMPARED.map((name) => [name, new Float64Array(count)])) as Record<
    Compared,
    Float64Array
  >;
  return {
    add(name: Compared, cell: number, value: number, weight: number) {
      sums[name][cell] += weight * value;
      weights[name][cell] += weight;
    },
    means: (): ByCell =>
      Object.fromEntries(
        COMPARED.map((name) => [name, sums[name].map((sum, i) => sum / weights[name][i])]),
      ) as unknown as ByCell,
  };
}

/**
 * What the log tells, by pieces: every reading for the time it stands for, and none where the train stood, started or
 * stopped.
 */
export function loggedIn(cells: Cells, log: LogColumns, { run_m }: Placed, journey: Journey): ByCell {
  const { time_s } = log;
  const n = time_s.length;
  const { add, means } = cellSums(cells.count);
  const longest_s = longestStep_s(time_s);
  const speed = log.speed && filled(time_s, log.speed);
  const made = (i: number) => {
    const [a, b] = [Math.max(0, i - 1), Math.min(n - 1, i + 1)];
    return (run_m[b] - run_m[a]) / (time_s[b] - time_s[a]);
  };
  const stands = standing(journey);
  const useless = hurriedIn(cells, journey);
  for (const cell of cutShortIn(cells, journey)) useless[cell] = 1;
  for (let i = 0; i < n; i++) {
    const speed_mps = speed ? speed[i] : made(i);
    if (speed_mps < STANDS_mps || stands(run_m[i] - run_m[0], speed_mps)) continue;
    const before_s = i > 0 ? Math.min(longest_s, time_s[i] - time_s[i - 1]) : 0;
    const after_s = i < n - 1 ? Math.min(longest_s, time_s[i + 1] - time_s[i]) : 0;
    const cell = cellAt(cells, run_m[i] - run_m[0]);
    if (useless[cell]) continue;
    for (const name of COMPARED) {
      const value = name === "speed" ? speed_mps : (log[name]?.[i] ?? Number.NaN);
      if (Number.isNaN(value)) continue;
      add(name, cell, name === "duty" ? poweredDuty(value) : value, (before_s + after_s) / 2);
    }
  }
  return means();
}

/** Starting and stopping tell of the driver, and are smeared where a speed is evened out, m/s². */
const HURRIED_mps2 = 0.06;

/** The pieces in which the train gains or loses speed fast, somewhere. */
function hurriedIn(cells: Cells, { run_m, speed_mps }: Journey): Uint8Array {
  const hurried = new Uint8Array(cells.count);
  for (let i = 1; i < run_m.length; i++) {
    const gains_mps2 = (speed_mps[i] ** 2 - speed_mps[i - 1] ** 2) / (2 * (run_m[i] - run_m[i - 1]));
    if (Math.abs(gains_mps2) < HURRIED_mps2) continue;
    for (let cell = cellAt(cells, run_m[i - 1]); cell <= cellAt(cells, run_m[i]); cell++) hurried[cell] = 1;
  }
  return hurried;
}

/** At its ends the journey runs over a part of a piece: less than half of it tells of the few metres there. */
function cutShortIn({ cell_m, into_m, count }: Cells, { length_m }: Journey): number[] {
  const first_m = cell_m - into_m;
  const last_m = into_m + length_m - (count - 1) * cell_m;
  return [...(first_m < cell_m / 2 ? [0] : []), ...(last_m < cell_m / 2 ? [count - 1] : [])];
}

/** Faster or slower by more than this the sums' train is not driven as the real one was. */
const STRAYS_mps = 0.1;
const STRAYS_SHARE = 0.05;

/** And by more than so many standard deviations of what the logged speed scatters by from piece to piece. */
const BY_NOISE = 4;

/** Pieces in which the sums' train does not keep to the logged speed: by nothing but its speed can it be compared there. */
export function strayedIn(logged: ByCell, predicted: ByCell): number[] {
  const off = predicted.speed.map((each, i) => each - logged.speed[i]);
  const noise_mps = BY_NOISE * scatterOf(off.filter((each) => !Number.isNaN(each)));
  return [...off.keys()].filter((i) => Math.abs(off[i]) > STRAYS_mps + STRAYS_SHARE * logged.speed[i] + noise_mps);
}

/** Half of a normal distribution lies within so much less than its standard deviation. */
const TO_SD = 1.4826;

/** What neighbours scatter by, one standard deviation: a bend between three of them has √6 of it. */
function scatterOf(values: Float64Array): number {
  const bends = Array.from(values.subarray(2), (each, i) => Math.abs(each - 2 * values[i + 1] + values[i]));
  return (TO_SD * (bends.sort((a, b) => a - b)[bends.length >> 1] ?? 0)) / Math.sqrt(6);
}

/** The same, and nothing in some pieces but the speed, and the heat that is gathered over many. */
export function without(logged: ByCell, cells: readonly number[]): ByCell {
  const left = Object.fromEntries(COMPARED.map((name) => [name, logged[name].slice()])) as Record<
    Compared,
    Float64Array
  >;
  for (const name of COMPARED)
    if (name !== "speed" && name !== "temperature") for (const i of cells) left[name][i] = Number.NaN;
  return left;
}

/** Coasting has no duty: between next to none and what light running takes it leaps, and a piece with both tells nothing. */
export const poweredDuty = (duty: number): number => (duty > LEAST_DUTY ? duty : Number.NaN);
const LEAST_DUTY = 0.01;

/** So near to where it stood, and so slow, starting and stopping are more than driving. */
const NEAR_STAND_m = 1;

function standing({ stands }: Journey): (run_m: number, speed_mps: number) => boolean {
  let k = 0;
  return (run_m, speed_mps) => {
    while (k < stands.length && stands[k].at_m < run_m - NEAR_STAND_m) k++;
    return k < stands.length && Math.abs(stands[k].at_m - run_m) < NEAR_STAND_m && speed_mps < 2 * STANDS_mps;
  };
}
