import { describe, expect, it } from "vitest";
import { backwards, cholesky, forwards } from "../../packages/sim-core/src/numeric/cholesky.js";

// L is chosen, and the matrix multiplied out by hand: whole numbers, so that the root is exact.
const LOW = [
  [2, 0, 0],
  [6, 1, 0],
  [-8, 5, 3],
];
const MATRIX = Float64Array.of(4, 12, -16, 12, 37, -43, -16, -43, 98);

describe("cholesky", () => {
  it("finds L of L Lᵀ", () => {
    const low = cholesky(MATRIX, 3)!;
    for (let i = 0; i < 3; i++) for (let j = 0; j <= i; j++) expect(low[i * 3 + j]).toBe(LOW[i]![j]);
  });

  it("solves L Lᵀ x = b, forwards and then backwards", () => {
    const low = cholesky(MATRIX, 3)!;
    const x = [1, -2, 0.5];
    const b = Float64Array.from({ length: 3 }, (_, i) =>
      x.reduce((sum, each, j) => sum + MATRIX[i * 3 + j]! * each, 0),
    );
    forwards(low, b);
    backwards(low, b);
    for (const [i, each] of x.entries()) expect(b[i]).toBeCloseTo(each, 10);
  });

  it.each([
    ["a negative eigenvalue", [1, 2, 2, 1]],
    ["rows alike", [1, 1, 1, 1]],
    ["not a number", [Number.NaN]],
  ])("is undefined of a matrix with %s", (_, values) => {
    expect(cholesky(Float64Array.from(values), Math.sqrt(values.length))).toBeUndefined();
  });
});
