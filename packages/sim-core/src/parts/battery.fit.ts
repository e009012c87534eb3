import { linearRegression } from "simple-statistics";
import { leastSquares } from "../numeric/least-squares.js";
import { HOUR_s } from "./battery.data.js";
import { capacityOver_C, type Wells } from "./battery.wells.js";

/** Charge given at the steady current that empties the battery in a time. */
export interface HourRate {
  readonly time_s: number;
  readonly capacity_C: number;
}

export interface Peukert {
  readonly exponent: number;
  /** Capacity by the fitted law at the time asked for. */
  readonly capacity_C: number;
}

/** Peukert's law through two hour rates, or the least-squares line of ln t against ln I through more. */
export function fitPeukert(rates: readonly HourRate[], label_s: number): Peukert {
  const line = linearRegression(rates.map((r) => [Math.log(r.capacity_C / r.time_s), Math.log(r.time_s)]));
  const current_A = Math.exp((line.b - Math.log(label_s)) / -line.m);
  return { exponent: -line.m, capacity_C: current_A * label_s };
}

/** The hour rates that makers print, from one of them and Peukert's exponent: what the wells are then fitted to. */
export const ratesFromPeukert = (capacity_C: number, label_s: number, exponent: number): HourRate[] =>
  [20, 10, 5, 1].map((hours) => {
    const time_s = hours * HOUR_s;
    return { time_s, capacity_C: capacity_C * (time_s / label_s) ** (1 - 1 / exponent) };
  });

/** The two wells that give the hour rates best. */
export interface FittedWells {
  readonly wells: Wells;
  /** What they give over each rate's capacity, less 1. */
  readonly misses: readonly number[];
  readonly worstMiss: number;
}

/** Each of the three: what is fitted, as a logarithm or, of the share, the logarithm of its odds; and within what. */
type Bounds = readonly [least: number, most: number];

/**
 * What a battery's wells can be: they hold no less than the largest capacity, and hardly twice of it even where Peukert's
 * exponent is 2 (1.58 times); a fiftieth is within reach at least; they level in a minute at least and four days at most.
 */
const BOUNDS: readonly Bounds[] = [
  [0, Math.log(2)],
  [Math.log(0.02 / 0.98), Math.log(0.999 / 0.001)],
  [Math.log(0.01), Math.log(60)],
];

/** Rounding of a fit that lies on a bound. */
const ON_THE_BOUND = 1e-9;

/**
 * Least squares of the capacities, three rates or more, within the bounds of what wells can be: the free fit where it
 * keeps to them, else the best of those that hold one figure or more at a bound.
 */
export function fitWells(rates: readonly HourRate[]): FittedWells {
  const largest_C = Math.max(...rates.map((r) => r.capacity_C));
  const wellsOf = (p: ArrayLike<number>): Wells => ({
    wells_C: largest_C * Math.exp(p[0]),
    availableShare: 1 / (1 + Math.exp(-p[1])),
    exponentRate_ps: Math.exp(p[2]) / HOUR_s,
  });
  const miss = (p: ArrayLike<number>, out: Float64Array) => {
    const wells = wellsOf(p);
    rates.forEach((r, i) => {
      out[i] = (capacityOver_C(wells, r.time_s) - r.capacity_C) / largest_C;
    });
  };
  const middle_h = Math.exp(rates.reduce((sum, r) => sum + Math.log(r.time_s / HOUR_s), 0) / rates.length);
  const start = [0.05, 0, -Math.log(middle_h)];
  const found = boundedFit(miss, start, rates.length);
  const wells = wellsOf(found);
  const misses = rates.map((r) => capacityOver_C(wells, r.time_s) / r.capacity_C - 1);
  return { wells, misses, worstMiss: Math.max(...misses.map(Math.abs)) };
}

/** The parameters with the least sum of squares among the fits in which each is free, or held at either bound. */
function boundedFit(
  miss: (p: ArrayLike<number>, out: Float64Array) => void,
  start: readonly number[],
  observations: number,
): readonly number[] {
  let best: { p: readonly number[]; sum: number } | undefined;
  const residuals = new Float64Array(observations);
  for (const held of holdings()) {
    const free = held.flatMap((at, i) => (at === undefined ? [i] : []));
    const whole = (part: ArrayLike<number>) => held.map((at, i) => at ?? part[free.indexOf(i)]);
    const part = free.map((i) => start[i]);
    const fit = free.length > 0 && leastSquares((p, out) => miss(whole(p), out), part, observations);
    if (fit && !fit.converged) continue;
    const p = whole(fit ? fit.parameters : part);
    if (p.some((each, i) => each < BOUNDS[i][0] - ON_THE_BOUND || each > BOUNDS[i][1] + ON_THE_BOUND)) continue;
    if (free.length === BOUNDS.length) return p;
    miss(p, residuals);
    const sum = residuals.reduce((total, each) => total + each * each, 0);
    if (!best || sum < best.sum) best = { p, sum };
  }
  // With all three held at their bounds there is always one.
  return best!.p;
}

/** Every way to hold figures at a bound, all free first; undefined: free. */
function holdings(): (number | undefined)[][] {
  return BOUNDS.reduce<(number | undefined)[][]>(
    (ways, bounds) => ways.flatMap((way) => [undefined, ...bounds].map((at) => [...way, at])),
    [[]],
  );
}
