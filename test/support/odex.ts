import { createRequire } from "node:module";

/**
 * The extrapolation integrator of Hairer and Wanner as somebody else wrote it down: it shares no line with our stepper.
 * Its package ships sources that a strict compiler refuses, hence the interface of our own.
 */
interface Solver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(
    rate: (x: number, y: number[]) => number[],
    from: number,
    y: number[],
    to: number,
  ): { y: number[]; outcome: number };
}
const { Solver, Outcome } = createRequire(import.meta.url)("odex") as {
  Solver: new (size: number) => Solver;
  Outcome: { Converged: number };
};

/** Integrates y' = rate(x, y), to within 1e-11 a step. */
export function integrate(rate: (x: number, y: number[]) => number[], from: number, y: number[], to: number): number[] {
  if (to === from) return y;
  const solver = new Solver(y.length);
  solver.absoluteTolerance = 1e-11;
  solver.relativeTolerance = 1e-11;
  solver.maxSteps = 100_000;
  const { y: end, outcome } = solver.solve(rate, from, y, to);
  if (outcome !== Outcome.Converged) throw new Error(`the oracle did not converge from ${from} to ${to}`);
  return end;
}
