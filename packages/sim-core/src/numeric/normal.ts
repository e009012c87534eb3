import { errorFunction } from "simple-statistics";
import { cholesky, forwards } from "./cholesky.js";

const HALF_LOG_2PI = 0.5 * Math.log(2 * Math.PI);

/** Share of a standard normal distribution below `z`. */
export const below = (z: number): number => 0.5 * (1 + errorFunction(z / Math.SQRT2));

/** Log density of a normal distribution at `off` from its mean. */
export const logNormal = (off: number, sd: number): number => -0.5 * (off / sd) ** 2 - Math.log(sd) - HALF_LOG_2PI;

/** How many times as wide as it is thought a distribution may be, each with its share of the probability. */
export type Widths = readonly (readonly [times: number, share: number])[];

/** Log density at `off` from the mean of a normal distribution whose width is in doubt. */
export const logWidened = (off: number, sd: number, widths: Widths): number =>
  logJointWidened(Float64Array.of(off), Float64Array.of(sd * sd), widths);

/**
 * Log density of a joint normal distribution at `off` from its means, all of one width that is in doubt: a mean over the
 * widths.
 * @param covariance row after row, positive definite; NaN where it is not
 */
export function logJointWidened(off: Float64Array, covariance: Float64Array, widths: Widths): number {
  const n = off.length;
  const low = cholesky(covariance, n);
  if (!low) return Number.NaN;
  const white = off.slice();
  forwards(low, white);
  let square = 0;
  let log = -n * HALF_LOG_2PI;
  for (let i = 0; i < n; i++) {
    square += white[i] ** 2;
    log -= Math.log(low[i * n + i]);
  }
  const logs = widths.map(([times, share]) => Math.log(share) - n * Math.log(times) - (0.5 * square) / times ** 2);
  return log + Math.log(widths.length) + logMean(logs);
}

/** log(mean(exp(x))), however small the exponentials. */
export function logMean(logs: ArrayLike<number>): number {
  const top = Math.max(...Array.from(logs));
  if (top === Number.NEGATIVE_INFINITY) return top;
  let sum = 0;
  for (let i = 0; i < logs.length; i++) sum += Math.exp(logs[i] - top);
  return top + Math.log(sum / logs.length);
}
