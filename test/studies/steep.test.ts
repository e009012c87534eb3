import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { steeperThan } from "../../packages/sim-core/src/studies/climb/steep.js";
import { curvesAt_N, gradientsFelt, gravityAt_N } from "../../packages/sim-core/src/train/line.js";
import { clubPlan } from "../support/club.js";
import { type Post, profile } from "../support/profiles.js";

const G_mps2 = 9.80665;

/** The loco alone, which weighs the same on every metre of its length, on a line of posts. */
const loco = (kind: "circuit" | "end-to-end", ...posts: Post[]) =>
  clubPlan(profile(posts), { cars: [], passengers: 0, track: { kind } });

describe("where a train feels more than a gradient", () => {
  // By hand: with x of its length l on 1 in 50, the rest level, it feels x/l of 1 in 50: 1 in 100 with half of it on.
  // Over a crest from 1 in 50 up to 1 in 50 down with s of it beyond, it feels (l - 2s)/l of 1 in 50.
  const ridge: Post[] = [
    [0, 0],
    [100, 0],
    [200, 2],
    [300, 0],
    [400, 0],
  ];
  test("half its length on 1 in 50 is 1 in 100, out and back", () => {
    const plan = loco("end-to-end", ...ridge);
    const { length_m } = plan.train;
    const [out, back, ...others] = steeperThan(plan, 0.01);
    expect(others).toEqual([]);
    expect(out!.direction).toBe("out");
    expect(out!.from_m).toBeCloseTo(100 + length_m / 2, 9);
    expect(out!.to_m).toBeCloseTo(200 + length_m / 4, 9);
    expect(back!.direction).toBe("back");
    expect(back!.from_m).toBeCloseTo(300 - length_m / 2, 9);
    expect(back!.to_m).toBeCloseTo(200 - length_m / 4, 9);
  });
  test("a hump shorter than half of it is never felt as 1 in 100", () => {
    const short_m = 0.4 * loco("circuit", ...ridge).train.length_m;
    const plan = loco("circuit", [0, 0], [100, 0], [100 + short_m, 0.02 * short_m], [400, 0.02 * short_m], [500, 0]);
    expect(steeperThan(plan, 0.01)).toEqual([]);
  });
  test("a bank across the first post of a circuit is one stretch", () => {
    const plan = loco("circuit", [0, 1], [50, 2], [150, 2], [250, 0], [350, 0], [400, 1]);
    const { length_m } = plan.train;
    const [bank, ...others] = steeperThan(plan, 0.01);
    expect(others).toEqual([]);
    expect(bank!.from_m).toBeCloseTo(350 + length_m / 2, 9);
    expect(bank!.to_m).toBeCloseTo(50 + length_m / 2, 9);
  });
  test("less than it feels anywhere is all the way round, more than the ruling gradient nowhere", () => {
    const plan = loco("circuit", ...ridge);
    expect(steeperThan(plan, -0.5)).toEqual([{ direction: "out", from_m: 0, to_m: 400 }]);
    const { compensated } = gradientsFelt(plan.train, plan.track);
    expect(steeperThan(plan, compensated.share)).toEqual([]);
    expect(steeperThan(plan, 0.999 * compensated.share)).toHaveLength(1);
  });

  // The law: whatever the line and the train, a place is in a stretch just when the train there feels more.
  test("any place is in a stretch just when what is felt there is more", () => {
    const heights = fc.array(fc.double({ min: 0, max: 0.6, noNaN: true }), { minLength: 4, maxLength: 9 });
    const kinds = fc.constantFrom("circuit" as const, "end-to-end" as const);
    const shares = fc.double({ min: -0.02, max: 0.03, noNaN: true });
    fc.assert(
      fc.property(heights, kinds, shares, fc.double({ min: 0, max: 1, noNaN: true }), (h, kind, share, at) => {
        const posts = [...h, h[0]!].map((height_m, i): Post => [15 * i, height_m, i % 3 === 1 ? 25 : undefined]);
        const plan = clubPlan(profile(posts), { passengers: 3, track: { kind } });
        const { train, track } = plan;
        const first_m = kind === "circuit" ? 0 : train.length_m;
        const head_m = first_m + at * (track.length_m - first_m);
        const felt = (gravityAt_N(train, track, head_m) + curvesAt_N(train, track, head_m)) / (train.mass_kg * G_mps2);
        if (Math.abs(felt - share) < 1e-9) return;
        const within = steeperThan(plan, share)
          .filter(({ direction }) => direction === "out")
          .some(({ from_m, to_m }) =>
            from_m <= to_m ? head_m >= from_m && head_m <= to_m : head_m >= from_m || head_m <= to_m,
          );
        expect(within).toBe(felt > share);
      }),
    );
  });
});
