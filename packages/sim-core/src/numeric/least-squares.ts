import { backwards, cholesky, forwards } from "./cholesky.js";

/** Writes what is left over at each observation (computed less observed) for the parameters it is given. */
export type Residuals = (parameters: Float64Array, out: Float64Array) => void;

export interface LeastSquares {
  parameters: Float64Array;
  /** One standard deviation of each parameter; NaN where there is no observation to spare. */
  standardErrors: Float64Array;
  /** Row after row; the variance of the residuals is estimated from the sum of squares. */
  covariance: Float64Array;
  sumOfSquares: number;
  iterations: number;
  /** False where the steps did not die away: the parameters are then only the best that was met. */
  converged: boolean;
}

/**
 * The parameters that make the sum of squared residuals least, from a starting guess, by the method of Levenberg (1944)
 * and Marquardt (1963): Gauss-Newton steps, shortened along the gradient while they do not help. Each parameter is
 * damped by its own curvature, so scales do not matter. Small dense problems; slopes by central differences.
 */
export function leastSquares(residuals: Residuals, start: ArrayLike<number>, observations: number): LeastSquares {
  const n = start.length;
  let p = Float64Array.from(start);
  let tried = new Float64Array(n);
  let r = new Float64Array(observations);
  let rTried = new Float64Array(observations);
  const slopes = new Float64Array(observations * n);
  const curvature = new Float64Array(n * n);
  const damped = new Float64Array(n * n);
  const gradient = new Float64Array(n);
  const move = new Float64Array(n);

  // A parameter that comes near 0 is still moved by a share of what it began as.
  const scales = Float64Array.from(start, (each) => Math.abs(each) || 1);
  residuals(p, r);
  let sum = squared(r);
  let damping = 1e-3;
  let iterations = 0;
  let converged = false;
  while (!converged && damping < 1e15 && iterations < 500) {
    iterations++;
    jacobian(residuals, p, scales, slopes, observations);
    normalEquations(slopes, r, curvature, gradient);
    let improved = false;
    while (!improved && !converged && damping < 1e15) {
      for (let i = 0; i < n * n; i++) damped[i] = curvature[i] * (i % (n + 1) === 0 ? 1 + damping : 1);
      for (let i = 0; i < n; i++) move[i] = -gradient[i];
      if (solve(damped, move)) {
        for (let i = 0; i < n; i++) tried[i] = p[i] + move[i];
        residuals(tried, rTried);
        const sumTried = squared(rTried);
        improved = sumTried <= sum;
        converged = move.every((m, i) => Math.abs(m) <= 1e-11 * (Math.abs(p[i]) + 1e-11));
        if (improved) {
          [p, tried] = [tried, p];
          [r, rTried] = [rTried, r];
          sum = sumTried;
        }
      }
      damping = improved ? Math.max(damping / 10, 1e-12) : damping * 10;
    }
  }
  jacobian(residuals, p, scales, slopes, observations);
  normalEquations(slopes, r, curvature, gradient);
  const covariance = inverse(curvature, n);
  const variance = sum / (observations - n);
  for (let i = 0; i < covariance.length; i++) covariance[i] *= variance;
  const standardErrors = Float64Array.from(p, (_, i) => Math.sqrt(covariance[i * n + i]));
  return { parameters: p, standardErrors, covariance, sumOfSquares: sum, iterations, converged };
}

const squared = (r: Float64Array): number => r.reduce((sum, x) => sum + x * x, 0);

/** Of what a parameter began as. */
const LEAST_OF_SCALE = 1e-3;

/** Central differences: the step is the cube root of rounding, where both kinds of error are least. */
function jacobian(
  residuals: Residuals,
  p: Float64Array,
  scales: Float64Array,
  slopes: Float64Array,
  observations: number,
): void {
  const n = p.length;
  const at = p.slice();
  const above = new Float64Array(observations);
  const below = new Float64Array(observations);
  for (let j = 0; j < n; j++) {
    const step = Math.cbrt(Number.EPSILON) * Math.max(Math.abs(p[j]), LEAST_OF_SCALE * scales[j]);
    at[j] = p[j] + step;
    residuals(at, above);
    at[j] = p[j] - step;
    residuals(at, below);
    at[j] = p[j];
    for (let i = 0; i < observations; i++) slopes[i * n + j] = (above[i] - below[i]) / (2 * step);
  }
}

function normalEquations(slopes: Float64Array, r: Float64Array, curvature: Float64Array, gradient: Float64Array): void {
  const n = gradient.length;
  curvature.fill(0);
  gradient.fill(0);
  for (let i = 0; i < r.length; i++) {
    for (let j = 0; j < n; j++) {
      gradient[j] += slopes[i * n + j] * r[i];
      for (let k = 0; k < n; k++) curvature[j * n + k] += slopes[i * n + j] * slopes[i * n + k];
    }
  }
}

/** Solves a symmetric system in place: `b` becomes the answer. False if it is not positive definite. */
function solve(matrix: Float64Array, b: Float64Array): boolean {
  const low = cholesky(matrix, b.length);
  if (!low) return false;
  forwards(low, b);
  backwards(low, b);
  return true;
}

function inverse(matrix: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const column = new Float64Array(n);
    column[j] = 1;
    if (!solve(matrix, column)) return out.fill(Number.NaN);
    for (let i = 0; i < n; i++) out[i * n + j] = column[i];
  }
  return out;
}
