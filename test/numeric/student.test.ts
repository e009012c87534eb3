import { expect, test } from "vitest";
import { studentWithin } from "../../packages/sim-core/src/numeric/student.js";

// Two-sided 95 % factors of Student's distribution, printed to three figures in JCGM 100, table G.2 (from memory), by
// recomputation to more.
test.each([
  [1, 12.706204736],
  [2, 4.30265273],
  [3, 3.182446305],
  [4, 2.776445105],
  [5, 2.570581836],
  [10, 2.228138852],
  [20, 2.085963447],
  [50, 2.008559112],
  [100, 1.983971519],
])("with %d degrees of freedom: %f", (freedom, t) => {
  expect(Math.abs(studentWithin(freedom) - t)).toBeLessThan(1e-8);
});

test("other shares, and hardly any freedom: 99 % of 16 degrees is 2.9208 (the guide's end gauge)", () => {
  expect(studentWithin(16, 0.99)).toBeCloseTo(2.9207816, 6);
});
