import { describe, expect, it } from "vitest";
import { below, logJointWidened, logMean, logNormal, logWidened } from "../../packages/sim-core/src/numeric/normal.js";

describe("below", () => {
  // Standard normal tables, as in any handbook of statistics; the error function used is good to 1.2e-7.
  it.each([
    [0, 0.5],
    [1, 0.8413447],
    [1.959964, 0.975],
    [-1.644854, 0.05],
    [-3, 0.0013499],
  ])("%s standard deviations", (z, share) => {
    expect(below(z)).toBeCloseTo(share, 6);
  });
});

const logJointNormal = (off: Float64Array, covariance: Float64Array) => logJointWidened(off, covariance, [[1, 1]]);

describe("a joint normal density, of one width", () => {
  it("of independent ones is the sum of theirs", () => {
    const off = [0.3, -2, 5];
    const sds = [1, 0.5, 4];
    const covariance = Float64Array.from({ length: 9 }, (_, i) => (i % 4 === 0 ? sds[i / 4]! ** 2 : 0));
    const alone = off.reduce((sum, each, i) => sum + logNormal(each, sds[i]!), 0);
    expect(logJointNormal(Float64Array.from(off), covariance)).toBeCloseTo(alone, 12);
  });

  it("of two that go together, by hand", () => {
    // The determinant is 4 · 1 - 1.2² = 2.56; offᵀ C⁻¹ off = (1 · 1 + 2 · 1.2 · 0.5 + 4 · 0.25) / 2.56 = 1.25.
    const by_hand = -0.5 * 1.25 - 0.5 * Math.log(2.56) - Math.log(2 * Math.PI);
    expect(logJointNormal(Float64Array.of(1, -0.5), Float64Array.of(4, 1.2, 1.2, 1))).toBeCloseTo(by_hand, 12);
  });

  it("of nothing is certain, and of what cannot be a covariance not a number", () => {
    expect(logJointNormal(new Float64Array(0), new Float64Array(0))).toBe(0);
    expect(logJointNormal(Float64Array.of(1, 1), Float64Array.of(1, 2, 2, 1))).toBeNaN();
  });
});

describe("one whose width is in doubt", () => {
  const widths = [
    [1, 0.55],
    [1.5, 0.35],
    [2, 0.1],
  ] as const;

  it("is the mean of the densities of its widths", () => {
    const by_hand = widths.reduce((sum, [times, share]) => sum + share * Math.exp(logNormal(3, 2 * times)), 0);
    expect(logWidened(3, 2, widths)).toBeCloseTo(Math.log(by_hand), 12);
  });

  it("widens all together: two that lie far out speak for one width", () => {
    const far = logJointWidened(Float64Array.of(4, 4), Float64Array.of(1, 0, 0, 1), widths);
    expect(far).toBeGreaterThan(2 * logWidened(4, 1, widths));
  });

  // What BAND of the trial's instruments rests on.
  it("leaves one in twenty out at 2.65 standard deviations", () => {
    const out = widths.reduce((sum, [times, share]) => sum + share * 2 * below(-2.65 / times), 0);
    expect(out).toBeCloseTo(0.05, 3);
  });
});

describe("logMean", () => {
  it("is the logarithm of the mean, however far below what exp can hold", () => {
    expect(logMean([Math.log(1), Math.log(3)])).toBeCloseTo(Math.log(2), 12);
    expect(logMean([-2000 + Math.log(1), -2000 + Math.log(3)])).toBeCloseTo(-2000 + Math.log(2), 9);
    expect(logMean([Number.NEGATIVE_INFINITY, 0])).toBeCloseTo(-Math.LN2, 12);
    expect(logMean([Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY])).toBe(Number.NEGATIVE_INFINITY);
  });
});
