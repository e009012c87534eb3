import { describe, expect, it } from "vitest";
import { leastSquares } from "../../packages/sim-core/src/numeric/least-squares.js";

// NIST Statistical Reference Datasets, nonlinear regression, Misra1a (dental research, lower difficulty), with its
// certified values; the figures agree with several public copies of the data set.
const misra1a = {
  x: [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0],
  y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
  certified: [2.3894212918e2, 5.5015643181e-4],
  standardErrors: [2.7070075241, 7.2668688436e-6],
  sumOfSquares: 1.2455138894e-1,
};

describe("leastSquares", () => {
  const residuals = (b: Float64Array, out: Float64Array) => {
    misra1a.x.forEach((x, i) => {
      out[i] = b[0]! * (1 - Math.exp(-b[1]! * x)) - misra1a.y[i]!;
    });
  };

  it.each([
    ["far start", [500, 0.0001]],
    ["near start", [250, 0.0005]],
  ])("meets NIST's certified values from the %s", (_, start) => {
    const fit = leastSquares(residuals, start, misra1a.x.length);
    expect(fit.converged).toBe(true);
    misra1a.certified.forEach((value, i) => {
      expect(fit.parameters[i]! / value).toBeCloseTo(1, 9);
      // The certified errors come from exact slopes, ours from differences.
      expect(fit.standardErrors[i]! / misra1a.standardErrors[i]!).toBeCloseTo(1, 7);
    });
    expect(fit.sumOfSquares / misra1a.sumOfSquares).toBeCloseTo(1, 10);
  });

  it("passes through the points where there are as many parameters, and then owns to no errors", () => {
    const line = (p: Float64Array, out: Float64Array) => {
      out[0] = p[0]! + p[1]! - 3;
      out[1] = p[0]! + 2 * p[1]! - 5;
    };
    const fit = leastSquares(line, [0, 0], 2);
    expect(fit.converged).toBe(true);
    expect(fit.parameters[0]).toBeCloseTo(1, 12);
    expect(fit.parameters[1]).toBeCloseTo(2, 12);
    expect(fit.standardErrors[0]).not.toBeLessThan(Number.POSITIVE_INFINITY);
  });

  it("does not claim to have converged where a parameter has no effect", () => {
    const fit = leastSquares(
      (p, out) => {
        out[0] = p[0]! - 1;
        out[1] = p[0]! - 2;
      },
      [0, 7],
      2,
    );
    expect(fit.converged).toBe(false);
    expect(fit.parameters[1]).toBe(7);
    expect(fit.standardErrors[1]).toBeNaN();
  });
});
