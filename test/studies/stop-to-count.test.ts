import { expect, test } from "vitest";
import {
  drawnHeadlines,
  type LimitsAnswer,
  limits,
  type Sureness,
  stopToCountOn,
} from "../../packages/sim-core/src/index.js";
import { filesOf } from "../support/club.js";

const answer: LimitsAnswer = limits(filesOf({ brakes: [{ rail_force_N: 500 }] }), { sight_m: 60 });
const own_m = stopToCountOn(answer)!.distance_m!;
const sure = (p95: number, told_in = 1): Sureness => ({
  bands: { stop_m: { p05: 1, p25: 1, p50: 1, p75: 1, p95 } },
  told_in: { stop_m: told_in },
  chances: {},
  flipped_by: {},
  measure_first: [],
  draws: 80,
  seed: 1,
});

test("without a band the judgement's own stop is the one", () => {
  const stop = stopToCountOn(answer)!;
  expect(stop.distance_m).toBe(stop.row.distance_m);
  expect(stop).toMatchObject({ band: null, by_band: false, within_sight: true });
});
test("a band that ends farther off is told instead, and beyond sight it is no stop within it", () => {
  expect(stopToCountOn(answer, sure(own_m + 1))).toMatchObject({
    distance_m: own_m + 1,
    by_band: true,
    within_sight: true,
  });
  expect(stopToCountOn(answer, sure(61))).toMatchObject({ distance_m: 61, within_sight: false });
});
test("one that ends nearer makes nothing shorter", () => {
  expect(stopToCountOn(answer, sure(own_m - 1))).toMatchObject({ distance_m: own_m, by_band: false });
});
test("where a draw in ten does not stop at all there is no distance to count on", () => {
  expect(stopToCountOn(answer, sure(own_m, 0.9))).toMatchObject({ distance_m: null, within_sight: false });
});
test("without a brake there is none", () => {
  expect(stopToCountOn(limits(filesOf()))).toBeUndefined();
});

test("draws go about the rolling that a log has, so that their stops are longer by one that drew less", () => {
  const files = filesOf({ brakes: [{ rail_force_N: 500 }] });
  const hardest_m = answer.stops.flatMap(({ from_m }) => from_m ?? []);
  const stops = (rolling?: number) =>
    drawnHeadlines(
      files,
      "brakes",
      { hardest_m, sight_m: 60, ...(rolling !== undefined && { rolling }) },
      { count: 4, seed: 1, plain: true },
      0,
      4,
    ).map((each) => each!.figures["stop_m"]!);
  const [own, freer, same] = [stops(), stops(0.6), stops(1)];
  for (const [i, each] of own.entries()) {
    expect(freer[i]).toBeGreaterThan(each);
    expect(same[i]).toBe(each);
  }
});
