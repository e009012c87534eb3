import { describe, expect, test } from "vitest";
import type { InputError } from "../../packages/sim-core/src/errors.js";
import { levelsOfFixes } from "../../packages/sim-core/src/field/fixes.js";
import type { Fix } from "../../packages/sim-core/src/field/geodesic.js";

/** Metres east and north of a place at 52° N, on the radii of the ellipsoid there. */
const EAST_m = 68677.9;
const NORTH_m = 111267.4;
type At = readonly [east_m: number, north_m: number];
type Line = (along_m: number) => At;

/** A receiver carried along a line, a fix every so many metres. */
function carried(line: Line, length_m: number, height: (along_m: number) => number, every_m = 2): Fix[] {
  return Array.from({ length: Math.round(length_m / every_m) + 1 }, (_, i) => {
    const [east_m, north_m] = line(i * every_m);
    return { lat_deg: 52 + north_m / NORTH_m, lon_deg: -1 + east_m / EAST_m, height_m: height(i * every_m) };
  });
}

const straight: Line = (along_m) => [along_m, 0];
const oval =
  (lap_m: number): Line =>
  (along_m) => {
    const [radius_m, turned_rad] = [lap_m / (2 * Math.PI), (along_m / lap_m) * 2 * Math.PI];
    return [radius_m * Math.cos(turned_rad), radius_m * Math.sin(turned_rad)];
  };
const level = () => 100;

/** Normal draws from a seed: the generator of Park and Miller (1988) with their multiplier of 1993; Box and Muller (1958). */
function normals(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** A fix a second at walking pace whose error drifts (a first-order Markov process of 100 s), and so many at either end. */
function wandering(line: Line, length_m: number, sd_m: number, stands: number, normal: () => number): Fix[] {
  const keeps = Math.exp(-1 / 100);
  const fresh_m = sd_m * Math.sqrt(1 - keeps ** 2);
  let [east_m, north_m] = [sd_m * normal(), sd_m * normal()];
  const last = Math.round(length_m / 1.8);
  return Array.from({ length: last + 1 + 2 * stands }, (_, i) => {
    const along_m = (length_m / last) * Math.min(last, Math.max(0, i - stands));
    [east_m, north_m] = [keeps * east_m + fresh_m * normal(), keeps * north_m + fresh_m * normal()];
    const [east, north] = line(along_m);
    return { lat_deg: 52 + (north + north_m) / NORTH_m, lon_deg: -1 + (east + east_m) / EAST_m, height_m: 100 };
  });
}

const problemsOf = (fixes: readonly Fix[]) => {
  try {
    levelsOfFixes(fixes);
    return [];
  } catch (error) {
    return (error as InputError).problems;
  }
};

describe("levels of a receiver's fixes", () => {
  test("a plane that rises 1 in 100 is told as it is, and as not to be told from level", () => {
    const { points, gradients, received } = levelsOfFixes(carried(straight, 400, (s) => 100 + s / 100));
    expect(points.at(-1)!.distance_m).toBeCloseTo(400, 1);
    for (const { gradient_percent, doubt_percent } of gradients.slice(1, -1)) {
      expect(gradient_percent).toBeCloseTo(1, 2);
      expect(doubt_percent).toBeGreaterThan(1);
    }
    expect(received).toMatchObject({ untold: gradients.length, lap: null, difference_m: 3 });
  });

  test("1 in 100 is told over 900 m with 3 m at a hundred metres, since the doubt grows as the root; over 50 m with half a metre", () => {
    const fixes = carried(straight, 400, level);
    expect(levelsOfFixes(fixes).received.one_in_100_told_over_m).toBeCloseTo(900, 6);
    expect(levelsOfFixes(fixes, { difference_m: 0.5 }).received.one_in_100_told_over_m).toBeCloseTo(50, 6);
    // Two heights that have nothing to do with each other: the root of two times the standard's 13 m.
    expect(levelsOfFixes(fixes, { difference_m: 10 }).received.one_in_100_told_over_m).toBeCloseTo(
      1300 * Math.SQRT2,
      6,
    );
  });

  test("a hill of 40 m in 400 m is told", () => {
    const { received } = levelsOfFixes(carried(straight, 400, (s) => s / 10));
    expect(received.untold).toBe(0);
  });

  test("one wild height among many changes nothing by more than its fix's worth", () => {
    const fixes = carried(straight, 400, level).map((fix, i) => (i === 60 ? { ...fix, height_m: 0 } : fix));
    expect(levelsOfFixes(fixes).points.map(({ level_m }) => Math.round(level_m))).toEqual(
      levelsOfFixes(carried(straight, 400, level)).points.map(() => 100),
    );
  });

  test("a receiver that stands and wanders within its error adds nothing to the length", () => {
    const wander = Array.from({ length: 500 }, (_, i) => ({
      lat_deg: 52 + (5 * Math.sin(i / 7)) / NORTH_m,
      lon_deg: -1 + (5 * Math.sin(i / 11)) / EAST_m,
      height_m: 100,
    }));
    const { points, received } = levelsOfFixes([...wander, ...carried(straight, 300, level)]);
    expect(Math.abs(points.at(-1)!.distance_m! - 300)).toBeLessThan(8);
    expect(received.fixes).toBe(651);
    expect(problemsOf(wander)[0]!.message).toContain("the receiver stood still");
  });

  test("a shunt of a few metres is taken off again; a run back is refused, with the fix where it turns", () => {
    const shunt: Line = (s) => (s < 120 ? [s, 0] : s < 140 ? [240 - s, 0] : [s - 40, 0]);
    expect(levelsOfFixes(carried(shunt, 300, level)).points.at(-1)!.distance_m).toBeCloseTo(260, 0);
    const back: Line = (s) => (s < 200 ? [s, 0] : [400 - s, 0.5]);
    const [problem, ...others] = problemsOf(carried(back, 380, level));
    expect(others).toEqual([]);
    expect(problem!.message).toContain("turns back on itself here");
    expect(Math.abs(Number(problem!.path.slice(6)) - 101)).toBeLessThanOrEqual(4);
  });
});

describe("a way that comes round", () => {
  test.each([398, 60, 1200])("once round %d m is a lap, and its first and last place have one height", (lap_m) => {
    const { points, received, misclosure_m } = levelsOfFixes(carried(oval(lap_m), lap_m, (s) => 100 + s / 200));
    // Places are eight metres apart or a step more: chords of such arcs are short by a share of (arc/radius)²/24.
    const short = 1 - received.lap!.length_m / lap_m;
    expect(short).toBeGreaterThan(0);
    expect(short).toBeLessThan((10 / (lap_m / (2 * Math.PI))) ** 2 / 24 + 1e-4);
    expect(points.at(-1)!.level_m).toBeCloseTo(points[0]!.level_m, 9);
    expect(misclosure_m).toBeCloseTo(lap_m / 200, 0);
  });

  test("three times round and a bit: the first lap is taken, and what is left out is told", () => {
    const { received, points } = levelsOfFixes(carried(oval(400), 1290, level));
    expect(received.lap!.length_m).toBeCloseTo(400, -1);
    expect(received.lap!.before_m).toBe(0);
    expect(received.lap!.after_m).toBeCloseTo(890, -1);
    expect(points.at(-1)!.distance_m).toBe(received.lap!.length_m);
  });

  test("a lap that begins at the yard's points leaves the yard out", () => {
    const radius_m = 400 / (2 * Math.PI);
    const yard: Line = (s) => (s < 100 ? [radius_m, s - 100] : oval(400)(s - 100));
    const { received } = levelsOfFixes(carried(yard, 700, level));
    expect(received.lap!.length_m).toBeCloseTo(400, -1);
    expect(Math.abs(received.lap!.before_m - 100)).toBeLessThan(35);
  });

  test("a figure of eight that crosses itself goes round once, not twice", () => {
    const eight: Line = (s) => [80 * Math.sin(s / 80 + 1), 40 * Math.sin(s / 40 + 2)];
    const { received } = levelsOfFixes(carried(eight, 80 * 2 * Math.PI, level, 1));
    expect(received.lap!.before_m).toBe(0);
    expect(received.lap!.after_m).toBeLessThan(1);
  });

  test.each([
    ["a lap", oval(400), 400],
    ["three laps and a bit", oval(400), 1280],
  ] as const)(
    "a receiver that errs by 3 m and stands five minutes at both ends of %s: it is found, its length within a tenth",
    (_, line, length_m) => {
      const normal = normals(1);
      const laps = Array.from(
        { length: 60 },
        () => levelsOfFixes(wandering(line, length_m, 3, 300, normal)).received.lap,
      );
      const right = laps.filter((lap) => lap !== null && Math.abs(lap.length_m / 400 - 1) < 0.1);
      expect(right.length).toBeGreaterThanOrEqual(57);
    },
  );
  test("and a straight line is none", () => {
    const normal = normals(2);
    const lines = Array.from({ length: 60 }, () => levelsOfFixes(wandering(straight, 600, 3, 300, normal)));
    expect(lines.filter(({ received }) => received.lap !== null).length).toBeLessThanOrEqual(3);
    expect(
      lines.filter(({ points }) => Math.abs(points.at(-1)!.distance_m! / 600 - 1) < 0.1).length,
    ).toBeGreaterThanOrEqual(57);
  });

  test("spread or not, as asked", () => {
    const fixes = carried(oval(400), 400, (s) => 100 + s / 400);
    expect(levelsOfFixes(fixes, { adjust: "none" })).toMatchObject({ adjusted_by: "none" });
    expect(levelsOfFixes(fixes, { adjust: "none" }).points.at(-1)!.level_m).toBeGreaterThan(100.9);
    expect(levelsOfFixes(fixes).adjusted_by).toBe("distance");
  });
});

describe("fixes that will not do", () => {
  test("a wild fix is told with how far off it lies", () => {
    const fixes = carried(straight, 400, level);
    fixes[100] = { ...fixes[100]!, lat_deg: 52.1 };
    expect(problemsOf(fixes)).toEqual([
      { path: "fixes.101", message: expect.stringContaining("11.1 km from the one before") },
    ]);
  });
  test("a signal lost for a hundred metres is forgiven, and fixes that lie far apart all along", () => {
    const fixes = carried(straight, 600, level);
    expect(problemsOf([...fixes.slice(0, 100), ...fixes.slice(150)])).toEqual([]);
    expect(problemsOf(carried(straight, 4000, level, 400))).toEqual([]);
  });
  test("one alone is told", () => {
    expect(problemsOf(carried(straight, 0, level))[0]!.message).toContain("one fix alone");
  });
});
