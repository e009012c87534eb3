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

/**
 * The two wells that give the hour rates best: least squares of the capacities, three rates or more. Share and rate are
 * sought as logarithms so that they stay in their bounds.
 * @returns the wells, and the worst miss of a capacity as a share of it; undefined where no wells fit
 */
export function fitWells(rates: readonly HourRate[]): { wells: Wells; worstMiss: number } | undefined {
  const largest_C = Math.max(...rates.map((r) => r.capacity_C));
  const wellsOf = (p: Float64Array): Wells => ({
    wells_C: largest_C * Math.exp(p[0]),
    availableShare: 1 / (1 + Math.exp(-p[1])),
    exponentRate_ps: Math.exp(p[2]) / HOUR_s,
  });
  const miss = (p: Float64Array, out: Float64Array) => {
    const wells = wellsOf(p);
    rates.forEach((r, i) => {
      out[i] = (capacityOver_C(wells, r.time_s) - r.capacity_C) / largest_C;
    });
  };
  const middle_h = Math.exp(rates.reduce((sum, r) => sum + Math.log(r.time_s / HOUR_s), 0) / rates.length);
  const fit = leastSquares(miss, [0.05, 0, -Math.log(middle_h)], rates.length);
  if (!fit.converged) return undefined;
  const wells = wellsOf(fit.parameters);
  const misses = rates.map((r) => Math.abs(capacityOver_C(wells, r.time_s) / r.capacity_C - 1));
  return { wells, worstMiss: Math.max(...misses) };
}
