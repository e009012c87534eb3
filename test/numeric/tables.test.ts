import fc from "fast-check";
import { expect, test } from "vitest";
import { stretch } from "../../packages/sim-core/src/numeric/tables.js";

const places = fc
  .uniqueArray(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 60 })
  .map((xs) => Float64Array.from(xs).sort());

test("the stretch that holds a place does not depend on where the search begins", () => {
  const property = fc.property(
    places,
    fc.integer({ min: -1100, max: 1100 }),
    fc.integer({ min: -5, max: 70 }),
    (xs, x, hint) => {
      // Looked for from the first on: the last point that is not beyond the place, of those that begin a stretch.
      const begun = xs.slice(0, -1).findLastIndex((each) => each <= x);
      expect(stretch(xs, x, hint)).toBe(Math.max(0, begun));
    },
  );
  fc.assert(property, { numRuns: 2000 });
});

test("near its hint it looks at a handful of points, far from it at a few dozen", () => {
  let looks = 0;
  const count = 1_000_000;
  const xs = new Proxy(
    new Float64Array(count).map((_, i) => i),
    {
      get: (target, name) => {
        if (typeof name === "string" && /^\d+$/.test(name)) looks++;
        return Reflect.get(target, name, target);
      },
    },
  );
  const looked = (x: number, hint: number) => {
    looks = 0;
    expect(stretch(xs, x, hint)).toBe(Math.floor(x));
    return looks;
  };
  expect(looked(500_000.5, 500_000)).toBeLessThanOrEqual(2);
  expect(looked(500_002.5, 500_000)).toBeLessThanOrEqual(8);
  expect(looked(999_998.5, 0)).toBeLessThanOrEqual(44);
  expect(looked(0.5, 999_998)).toBeLessThanOrEqual(44);
});
