import { describe, expect, it } from "vitest";
import { summit } from "../../packages/sim-core/src/numeric/maximum.js";
import { root } from "../../packages/sim-core/src/numeric/roots.js";

describe("root", () => {
  it.each([
    ["cos x = x", (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607], // Dottie number, OEIS A003957
    ["x³ = 2x + 5", (x: number) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265], // Wallis's example, OEIS A007493
    ["downwards", (x: number) => 1 - x, 3, -4, 1],
    ["at an end", (x: number) => x - 2, 2, 5, 2],
    ["flat at the zero", (x: number) => (x - 1) ** 9, 0, 3, 1],
  ])("finds %s", (_, f, from, to, expected) => {
    expect(root(f, from, to)).toBeCloseTo(expected, 12);
  });

  it("is quick on a smooth function and never much slower than halving", () => {
    let calls = 0;
    const counted = (f: (x: number) => number) => (x: number) => {
      calls++;
      return f(x);
    };
    root(
      counted((x) => Math.cos(x) - x),
      0,
      1,
    );
    expect(calls).toBeLessThan(12);
    calls = 0;
    root(
      counted((x) => (x < 0.3 ? -1 : 1)),
      0,
      1,
    );
    expect(calls).toBeLessThan(3 * 53);
  });

  it("says what it found where nothing is enclosed", () => {
    expect(() => root((x) => x * x + 1, -1, 2)).toThrow("no zero is enclosed between -1 (value 2) and 2 (value 5)");
    expect(() => root(() => Number.NaN, 0, 1)).toThrow(RangeError);
  });
});

it("summit finds the top of a parabola to the square root of rounding", () => {
  expect(summit((x) => 3 - (x - 0.7) ** 2, -5, 2)).toBeCloseTo(0.7, 7);
});
