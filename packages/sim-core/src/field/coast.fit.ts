import { leastSquares } from "../numeric/least-squares.js";
import { studentWithin } from "../numeric/student.js";
import { coast, firstSpeed_mps, type Run } from "./coast.run.js";

/** What one fit of all runs found. */
export interface Fit {
  /** Retardation on the level, standing still in the limit, m/s², and its rise with the square of the speed, 1/m. */
  readonly a0: number;
  readonly a2: number;
  /** Half of what one way is slowed by more than the other, m/s². */
  readonly slope_mps2: number;
  readonly squares: number;
  readonly rms: number;
  readonly observations: number;
  readonly parameters: number;
}

/** Which terms a fit has besides the retardation. */
export interface Terms {
  readonly both: boolean;
  readonly air: boolean;
}

/** Of all runs together: one resistance, one gradient, and for each run the speed it began at. */
export function fit(runs: readonly Run[], { both, air }: Terms): Fit {
  const observations = runs.reduce((sum, { rows }) => sum + rows.length, 0);
  const shared = 1 + (both ? 1 : 0) + (air ? 1 : 0);
  const own = (p: Float64Array) => ({ a0: p[0], slope: both ? p[1] : 0, a2: air ? p[shared - 1] : 0 });
  const start = [0.05, ...(both ? [0] : []), ...(air ? [0.001] : []), ...runs.map(firstSpeed_mps)];
  const residuals = (p: Float64Array, out: Float64Array) => {
    const { a0, slope, a2 } = own(p);
    let at = 0;
    for (const [i, run] of runs.entries()) at = coast(run, p[shared + i], { a0: a0 + run.way * slope, a2 }, out, at);
  };
  const { parameters, sumOfSquares } = leastSquares(residuals, start, observations);
  const { a0, slope, a2 } = own(parameters);
  return {
    a0,
    a2,
    slope_mps2: slope,
    squares: sumOfSquares,
    rms: Math.sqrt(sumOfSquares / observations),
    observations,
    parameters: start.length,
  };
}

/** Nothing is read to this, m/s or m: a fit that leaves no more over wants no further term. */
const UNREAD = 1e-5;

/** Does a rise with speed fit so much better that chance would do so once in a hundred? Fisher's F of one to many. */
export function tellsAir(withAir: Fit, without: Fit): boolean {
  const freedom = withAir.observations - withAir.parameters;
  if (freedom < 1 || !(withAir.a2 > 0) || without.rms < UNREAD) return false;
  const t = Math.sqrt(Math.max(0, without.squares - withAir.squares) / (withAir.squares / freedom));
  return t > studentWithin(freedom, 0.99);
}

/** Half-width of nineteen in twenty, leaving out one pair of runs after the other (Quenouille 1956, Tukey 1958). */
export function jackknife(
  ways: readonly (readonly Run[])[],
  pairs: number,
  of: (runs: readonly Run[]) => number,
  share?: number,
): number {
  const without = Array.from({ length: pairs }, (_, left) =>
    of(ways.flatMap((way) => way.filter((_, i) => i !== left))),
  );
  const mean = without.reduce((sum, each) => sum + each, 0) / pairs;
  const square = without.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  return studentWithin(pairs - 1, share) * Math.sqrt((square * (pairs - 1)) / pairs);
}
