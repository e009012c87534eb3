import { describe, expect, test } from "vitest";
import { quantileOf } from "../../packages/sim-core/src/doubt/bands.js";
import {
  cutNormal,
  evenDraws,
  latinHypercube,
  normalScores,
  plainDraws,
} from "../../packages/sim-core/src/doubt/random.js";
import { fitSurrogate, sharesOf } from "../../packages/sim-core/src/doubt/surrogate.js";
import { below } from "../../packages/sim-core/src/numeric/normal.js";

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const sdOf = (values: readonly number[]) => {
  const mean = meanOf(values);
  return Math.sqrt(meanOf(values.map((value) => (value - mean) ** 2)));
};
const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);

describe("quantiles are of type 7", () => {
  // Hyndman and Fan (1996), type 7; values by NumPy, whose usual quantile it is.
  const primes = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29];
  test.each([
    [0.05, 2.45],
    [0.1, 2.9],
    [0.25, 5.5],
    [0.5, 12],
    [0.9, 23.6],
    [0.95, 26.3],
  ])("of ten primes at %f: %f", (share, value) => {
    expect(quantileOf(primes, share)).toBeCloseTo(value, 12);
  });
  test("of 15 20 35 40 50 at 0.4: 29", () => expect(quantileOf([15, 20, 35, 40, 50], 0.4)).toBeCloseTo(29, 12));
});

describe("Latin hypercubes", () => {
  test("each equal slice of every figure holds one point", () => {
    const { points } = latinHypercube(40, 7, 3);
    for (let j = 0; j < 7; j++) {
      const slices = points.map((z) => Math.floor(((below(z[j]) - 0.00135) / 0.9973) * 40 + 1e-6));
      expect(sorted(slices)).toEqual(Array.from({ length: 40 }, (_, i) => i));
    }
  });
  test("the mean of a sum of four even figures has 16² times less variance than of plain draws: d/(12 N³)", () => {
    // McKay, Beckman and Conover (1979); for a sum the variance is known exactly.
    const means = Array.from({ length: 2000 }, (_, seed) => {
      const even = evenDraws(seed);
      const columns = Array.from({ length: 4 }, () => {
        const order = Array.from({ length: 16 }, (_, i) => i);
        return order.map((i) => (i + even()) / 16);
      });
      return meanOf(Array.from({ length: 16 }, (_, i) => columns.reduce((sum, column) => sum + column[i]!, 0)));
    });
    expect(sdOf(means) ** 2 / 8.138e-5).toBeGreaterThan(0.9);
    expect(sdOf(means) ** 2 / 8.138e-5).toBeLessThan(1.1);
  });
  test("the same seed gives the same points, bit for bit, another others", () => {
    expect(latinHypercube(30, 5, 8)).toEqual(latinHypercube(30, 5, 8));
    expect(latinHypercube(30, 5, 8)).not.toEqual(latinHypercube(30, 5, 9));
    expect(plainDraws(5, 3, 1).points).toEqual(plainDraws(9, 3, 1).points.slice(0, 5));
  });
});

describe("distributions", () => {
  test("normal, cut at three standard deviations: 0.9866 of one, and nineteen in twenty within 1.93", () => {
    // Variance of a normal cut at ±3: 1 - 2·3·φ(3)/(2Φ(3) - 1) = 0.97334 (Johnson, Kotz and Balakrishnan, from memory).
    const values = normalScores(20000, 1, 1).map(([z]) => z!);
    expect(sdOf(values) ** 2).toBeCloseTo(0.97334, 3);
    expect(Math.max(...values)).toBeLessThanOrEqual(3);
    expect(cutNormal(0.5)).toBeCloseTo(0, 12);
  });
  test("four even figures of standard deviation 1: 95 % within 3.8794 of the mean, and not 3.92", () => {
    // JCGM 101, 9.2.3 (from memory); exactly 2√3 (2 - (3/5)^¼).
    const even = evenDraws(4);
    const draws = 200_000;
    const sums = Array.from({ length: draws }, () => {
      let sum = 0;
      for (let i = 0; i < 4; i++) sum += Math.sqrt(3) * (2 * even() - 1);
      return sum;
    });
    const rising = sorted(sums);
    expect(sdOf(sums)).toBeCloseTo(2, 1);
    expect(Math.abs((quantileOf(rising, 0.975) - quantileOf(rising, 0.025)) / 2 - 3.8794067)).toBeLessThan(0.02);
  });
});

describe("the end gauge of JCGM 100, H.1", () => {
  // Inputs as the guide prints them: lengths in nm. Combined uncertainty to first order 31.664, printed 32; with terms of
  // second order 33.807, printed 34.
  const gauge = (z: ArrayLike<number>, even: (i: number) => number) => {
    const [standard, difference, room] = [25 * z[0]!, 9.681942 * z[1]!, 0.2 * z[2]!];
    const cyclic = 0.5 * Math.sin(Math.PI * (even(0) - 0.5));
    const [expansions, warmth, expansion] = [
      1e-6 * (2 * even(1) - 1),
      0.05 * (2 * even(2) - 1),
      2e-6 * (2 * even(3) - 1),
    ];
    const th = -0.1 + room + cyclic;
    const ls = 50_000_623 + standard;
    return ls + 215 + difference - ls * (expansions * th + (11.5e-6 + expansion) * warmth);
  };
  const even = evenDraws(5);
  const normal = () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
  const draws = Array.from({ length: 100_000 }, () => {
    const z = [normal(), normal(), normal()];
    const others = [even(), even(), even(), even()];
    return { row: [...z, ...others.map((each) => 2 * each - 1)], value: gauge(z, (i) => others[i]!) };
  });
  test("draws give 50 000 838 nm and an uncertainty of 34 nm", () => {
    const values = draws.map(({ value }) => value);
    expect(meanOf(values)).toBeCloseTo(50_000_838, -1);
    expect(sdOf(values) / 33.806545).toBeGreaterThan(0.99);
    expect(sdOf(values) / 33.806545).toBeLessThan(1.01);
  });
  test("the surrogate's shares are those of the guide's budget", () => {
    const some = draws.slice(0, 400);
    const surrogate = fitSurrogate(
      some.map(({ row }) => row),
      some.map(({ value }) => value),
    );
    const shares = sharesOf(
      surrogate,
      draws.slice(400, 5400).map(({ row }) => row),
    );
    // Squares of the guide's components 25, 9.68 and 16.6 nm over 33.8² nm².
    expect(Math.abs(shares.get(0)! - 25 ** 2 / 33.806545 ** 2)).toBeLessThan(0.05);
    expect(Math.abs((shares.get(1) ?? 0) - 9.681942 ** 2 / 33.806545 ** 2)).toBeLessThan(0.04);
    expect(Math.abs((shares.get(5) ?? 0) - 16.5990271 ** 2 / 33.806545 ** 2)).toBeLessThan(0.05);
  });
});

describe("what the surrogate cannot follow it leaves over, and says so", () => {
  test("Ishigami's function: half its variance and more is not of lines, squares and products", () => {
    // sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1 on ±π: variance 13.8445879407.
    const even = evenDraws(6);
    const row = () => Array.from({ length: 3 }, () => Math.PI * (2 * even() - 1));
    const f = ([a, b, c]: readonly number[]) => Math.sin(a!) + 7 * Math.sin(b!) ** 2 + 0.1 * c! ** 4 * Math.sin(a!);
    const rows = Array.from({ length: 2000 }, row);
    const values = rows.map(f);
    expect(Math.abs(sdOf(values) ** 2 - 13.8445879407)).toBeLessThan(0.7);
    const surrogate = fitSurrogate(rows, values);
    expect(surrogate.unexplained).toBeGreaterThan(0.4);
    // Its first-order share of x1, 0.3139, has the part that a line follows: 6/π² of sin x1 and of the rest alike.
    const shares = sharesOf(surrogate, Array.from({ length: 4000 }, row));
    expect(shares.get(0)!).toBeLessThan(0.313905191148);
    // Left-overs keep the spread whole.
    const left = surrogate.residuals;
    const whole = sdOf(rows.map(surrogate.at)) ** 2 + sdOf([...left]) ** 2;
    expect(Math.abs(whole / 13.8445879407 - 1)).toBeLessThan(0.05);
  });
});
