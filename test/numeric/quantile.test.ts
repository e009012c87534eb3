import { expect, test } from "vitest";
import { normalQuantile } from "../../packages/sim-core/src/numeric/quantile.js";

// Normal quantiles by 40-digit arithmetic; the tails agree with the check values of algorithm AS 241 (Wichura 1988, from memory).
test.each([
  [0.6, 0.2533471031358],
  [0.75, 0.674489750196082],
  [0.9, 1.2815515655446],
  [0.95, 1.64485362695147],
  [0.975, 1.95996398454005],
  [0.99, 2.32634787404084],
  [0.995, 2.5758293035489],
  [0.999, 3.09023230616781],
  [1e-6, -4.7534243088229],
  [1e-9, -5.99780701500769],
  [1e-12, -7.03448382530113],
  [1e-20, -9.26234008979841],
])("below the quantile of %f lies that share of a normal distribution", (share, z) => {
  expect(Math.abs(normalQuantile(share) - z)).toBeLessThan(1e-9);
});

test("the middle is the middle, and both sides are alike", () => {
  expect(normalQuantile(0.5)).toBe(0);
  for (const share of [0.4999, 0.3, 0.02]) expect(normalQuantile(share)).toBeCloseTo(-normalQuantile(1 - share), 12);
});
