import { describe, expect, test } from "vitest";
import { evenDraws } from "../../packages/sim-core/src/doubt/random.js";
import { pull } from "../../packages/sim-core/src/field/pull.js";
import { normalQuantile } from "../../packages/sim-core/src/numeric/quantile.js";

describe("pulls both ways", () => {
  test("800 kg at 87 N up and 9 N down: 48 N of rolling, 0.00612, on 0.497 %, 1 in 201 (derived)", () => {
    const { fitted, rolling_N, gradient_percent } = pull(
      [
        { direction: "up", steady_N: 87, starting_N: null },
        { direction: "down", steady_N: 9, starting_N: null },
      ],
      { mass_kg: 800 },
    );
    expect(rolling_N).toBeCloseTo(48, 9);
    expect(fitted[0]!.value).toBeCloseTo(0.00612, 5);
    expect(gradient_percent).toBeCloseTo(0.497, 3);
  });

  test("five means whose half-width by Student's t is 0.00141735: the spread between pulls, and not within them (derived)", () => {
    // The same five numbers each way: their mean's standard error is that of ten with eight degrees of freedom.
    const values = [0.0452, 0.0461, 0.0439, 0.0468, 0.0447];
    const rows = ["a", "b"].flatMap((direction) =>
      values.map((value) => ({ direction, steady_N: 1000 * value, starting_N: null })),
    );
    const { fitted } = pull(rows, { mass_kg: 1000 / 9.80665, balance: 0 });
    expect(fitted[0]!.value).toBeCloseTo(0.04534, 7);
    // Standard error 0.000510490 of five becomes that over √2 of both ways, times t of 8 degrees, 2.306004135.
    const half = (fitted[0]!.high - fitted[0]!.low) / 2;
    expect(half).toBeCloseTo((2.306004135 * 0.00051049) / Math.SQRT2, 7);
  });

  test("its nineteen in twenty hold the truth in 92 to 98 of 100 made-up sets", () => {
    const even = evenDraws(8);
    let held = 0;
    for (let set = 0; set < 500; set++) {
      const rows = [1, -1].flatMap((way) =>
        [0, 1, 2].map(() => ({
          direction: way > 0 ? "out" : "back",
          steady_N: 60 + way * 12 + 3 * normalQuantile(Math.min(0.999999, Math.max(1e-6, even()))),
          starting_N: null,
        })),
      );
      const { low, high } = pull(rows, { mass_kg: 600, balance: 0 }).fitted[0]!;
      const truth = 60 / (600 * 9.80665);
      if (low <= truth && truth <= high) held++;
    }
    expect(held / 500).toBeGreaterThan(0.92);
    expect(held / 500).toBeLessThan(0.98);
  });

  test("one way alone tells neither rolling nor the gradient", () => {
    const { fitted, both_ways, gradient_percent } = pull([{ direction: "out", steady_N: 60, starting_N: 80 }], {
      mass_kg: 600,
    });
    expect([fitted, both_ways, gradient_percent]).toEqual([[], false, null]);
  });

  test.each([
    [[{ direction: "a", steady_N: null, starting_N: null }], "neither a steady nor a starting pull"],
    [[{ direction: "a", steady_N: 80, starting_N: 60 }], "less to start than to keep rolling"],
    [["a", "b", "c"].map((direction) => ({ direction, steady_N: 50, starting_N: null })), "a third direction"],
  ])("what will not do is told: %j", (rows, message) => {
    expect(() => pull(rows, { mass_kg: 600 })).toThrow(message);
  });
});

test("a drive in mesh is taken off both, and widens the doubt by a quarter of itself (derived)", () => {
  const rows = [60, 62].flatMap((steady_N, i) => [
    { direction: i === 0 ? "out" : "back", steady_N, starting_N: 90 },
    { direction: i === 0 ? "out" : "back", steady_N, starting_N: 90 },
  ]);
  const [bare, meshed] = [pull(rows, { mass_kg: 500 }), pull(rows, { mass_kg: 500, drag_N: 20 })];
  const weight_N = 500 * 9.80665;
  expect(meshed.fitted[0]!.value).toBeCloseTo((61 - 20) / weight_N, 10);
  expect(meshed.fitted[1]!.value).toBeCloseTo((90 - 20) / weight_N, 10);
  const half = ({ low, high }: { low: number; high: number }) => (high - low) / 2;
  expect(half(meshed.fitted[0]!)).toBeCloseTo(Math.hypot(half(bare.fitted[0]!), (0.25 * 20) / weight_N), 10);
});

test("a balance's own error is in rolling and starting alike: with it alone they go wholly together (derived)", () => {
  const rows = ["out", "back"].flatMap((direction) => [
    { direction, steady_N: 60, starting_N: 90 },
    { direction, steady_N: 60, starting_N: 90 },
  ]);
  const { correlation, rms } = pull(rows, { mass_kg: 500 });
  expect(rms).toBe(0);
  expect(correlation[0]![1]).toBeCloseTo(1, 10);
  const spread = pull(
    rows.map((row, i) => ({ ...row, steady_N: row.steady_N + (i % 2 === 0 ? 6 : -6) })),
    { mass_kg: 500 },
  );
  expect(spread.rms).toBeCloseTo(6 / Math.SQRT2, 10);
  expect(spread.correlation[0]![1]).toBeLessThan(0.5);
});
