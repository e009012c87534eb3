import { describe, expect, test } from "vitest";
import { groupOf } from "../../packages/sim-core/src/doubt/doubts.js";
import { type Band, bands, type Doubted, doubtOf, draw, drawnHeadlines } from "../../packages/sim-core/src/index.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { madePlan } from "../../packages/sim-core/src/train/plan.js";
import { LOCO, PLAN } from "../support/club.js";
import { profile } from "../support/profiles.js";

/** Invented: a hump of 1 in 80. */
const HUMP = profile([
  [0, 0],
  [80, 1],
  [120, 1],
  [200, 0],
]);
const { lever: _, ...held } = PLAN;
const filesOf = (plan: Partial<PlanDefinition> = {}, loco: Partial<LocoDefinition> = {}): PlanFiles => ({
  plan: { ...held, speed_mps: 1.5, ...plan },
  loco: { ...LOCO, ...loco },
  track: HUMP,
});
const width = ({ p05, p95 }: Band) => p95 - p05;

describe("what is in doubt", () => {
  const doubts = doubtOf(filesOf());
  const named = (path: string) => doubts.find((each) => each.path === path);

  test("given figures by their kind, assumed ones by the range of their default", () => {
    expect(named("loco.mass")?.by).toBe("kind");
    expect(named("plan.reaction_time")?.by).toBe("default");
    const { at, middle } = named("plan.reaction_time")!;
    // Nine in ten lie within 0.7 to 2.5 s, as the table of keys has it.
    expect(at(middle, -1.6448536)).toBeCloseTo(0.7, 5);
    expect(at(middle, 1.6448536)).toBeCloseTo(2.5, 5);
  });
  test("neither counts, nor choices, nor what is meant", () => {
    for (const path of ["plan.passengers", "plan.speed", "loco.wheels.axles", "loco.gauge", "loco.battery.in_series"])
      expect(named(path)?.by ?? "none", path).toBe(path === "plan.passengers" ? "default" : "none");
  });
  test("nor figures of shafts and axles, given or assumed: no train moves by them", () => {
    const key = { width_m: 0.006, height_m: 0.006, length_m: 0.02 };
    const [first, second] = LOCO.gears;
    const gears = [first!, { ...second!, shaft: { diameter_m: 0.02, key } }];
    const given = filesOf({}, { gears, wheels: { ...LOCO.wheels, axle: { diameter_m: 0.025 } } });
    expect(doubtOf(given).map(({ path }) => path)).toEqual(doubts.map(({ path }) => path));
  });
  test("what was typed beside a figure goes before its kind", () => {
    const typed = doubtOf({ ...filesOf(), doubts: { "loco.resistance.rolling": { spread: "normal", half: 0.002 } } });
    const rolling = typed.find(({ path }) => path === "loco.resistance.rolling")!;
    expect(rolling.by).toBe("typed");
    expect(rolling.at(0.01, 1.959964)).toBeCloseTo(0.012, 8);
    const even = doubtOf({
      ...filesOf(),
      doubts: { "loco.resistance.rolling": { spread: "even", low: 0.008, high: 0.012 } },
    }).find(({ path }) => path === "loco.resistance.rolling")!;
    // A quarter of what lies anywhere between, alike, lies below a quarter of the way.
    expect(even.at(0.01, -0.674489750196082)).toBeCloseTo(0.009, 6);
  });
  test("like vehicles roll alike: the cars have no doubt of their own", () => {
    const paths = doubts.map(({ path }) => path);
    expect(paths).not.toContain("plan.cars.*.rolling");
    const plain = doubtOf(filesOf({ cars: [{ ...held.cars![0]!, bearings: "plain" }] })).map(({ path }) => path);
    expect(plain).toContain("plan.cars.*.rolling");
  });
  test("no figure leaves the bounds of its key", () => {
    for (const { at, middle, path } of doubts)
      for (const z of [-3, -1, 1, 3]) expect(Number.isFinite(at(middle, z)), path).toBe(true);
    const { at, middle } = named("plan.charge") ?? { at: () => 1, middle: 1 };
    expect(at(middle, 3)).toBeLessThanOrEqual(1);
  });
});

describe("a draw", () => {
  const files = filesOf();
  const doubts = doubtOf(files);
  test("with every figure at its middle is the plan as it is", () => {
    const drawn = draw(files, doubts, new Float64Array(doubts.length), 1);
    const [a, b] = [
      madePlan(drawn.plan, drawn.loco, files.track, drawn.tables),
      madePlan(files.plan, files.loco, files.track),
    ];
    for (const key of ["mass_kg", "rolling_N", "length_m", "source_ohm", "rim_kg", "driven_N"] as const)
      expect(a.train[key], key).toBeCloseTo(b.train[key], 9);
    expect(a.notes.assumed).toEqual(b.notes.assumed);
  });
  test("moves what follows from a figure with it", () => {
    const z = Float64Array.from(doubts, ({ path }) => (path === "loco.resistance.rolling" ? 2 : 0));
    const { plan, loco, track, tables } = draw(files, doubts, z, 1);
    const train = madePlan(plan, loco, track, tables).train;
    expect(train.vehicles[1]!.resistance.rolling).toBe(train.vehicles[0]!.resistance.rolling);
    expect(train.rolling_N).toBeGreaterThan(madePlan(files.plan, files.loco, files.track).train.rolling_N);
    // A figure that is drawn is no longer in doubt: stops and pulls count the same.
    const { least, most, rolling } = train.vehicles[0]!.resistance;
    expect([least, most]).toEqual([rolling, rolling]);
  });
  test("has a survey of its own, which closes where the survey does", () => {
    const [a, b] = [1, 2].map((seed) => draw(files, doubts, new Float64Array(doubts.length), seed).track.height_m!);
    expect(a).not.toEqual(b);
    expect([a![0], a!.at(-1)]).toEqual([0, 0]);
    expect(Math.max(...a!.map((each, i) => Math.abs(each - HUMP.height_m![i]!)))).toBeLessThan(0.004);
  });
  test("takes the place in a list out of a path", () => {
    expect(groupOf("loco.gears.2.efficiency")).toBe("loco.gears.*.efficiency");
    expect(groupOf("plan.cars.11.mass")).toBe("plan.cars.*.mass");
  });
});

describe("bands", () => {
  const few = { count: 24, seed: 7, plain: false };
  test("are the same for the same seed, however the draws are shared", () => {
    const files = filesOf();
    const whole = drawnHeadlines(files, "climb", {}, few);
    const parts = [...drawnHeadlines(files, "climb", {}, few, 0, 9), ...drawnHeadlines(files, "climb", {}, few, 9, 24)];
    expect(parts).toEqual(whole);
    expect(bands(files, "climb", {}, few, parts)).toEqual(bands(files, "climb", {}, few));
  });
  test.each<Doubted>(["run", "climb", "gears", "brakes", "size", "limits", "laps"])(
    "%s: its figures rise from p05 to p95",
    (question) => {
      const answer = bands(
        filesOf({ charge: 0.6 }, { brakes: [{ rail_force_N: 300 }] }),
        question,
        { hardest_m: [140] },
        few,
      );
      expect(answer.draws).toBe(24);
      expect(Object.keys(answer.bands).length).toBeGreaterThan(0);
      for (const { p05, p25, p50, p75, p95 } of Object.values(answer.bands))
        expect([p05, p25, p50, p75, p95]).toEqual([p05, p25, p50, p75, p95].sort((a, b) => a - b));
      for (const share of Object.values(answer.chances)) {
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(1 + 1e-9);
      }
    },
  );
  test("a train that rolls back up its rise is not told to run away", () => {
    // 1 in 33: more than bearings ever hold.
    const height_m = HUMP.height_m!.map((each) => 2.4 * each);
    const { chances, bands: of } = bands(
      { ...filesOf(), track: { ...HUMP, height_m } },
      "brakes",
      { hardest_m: [60] },
      few,
    );
    expect(chances.rolls_back_unbraked).toBeGreaterThan(0.5);
    expect(chances.runs_away_unbraked ?? 0).toBe(0);
    expect(of.run_on_m).toBeUndefined();
  });
  test("measuring what is said first narrows the band as it said", () => {
    const spread = { count: 80, seed: 3, plain: false };
    const found = { hardest_m: [140] };
    const before = bands(filesOf(), "brakes", found, spread);
    const [first] = before.measure_first;
    expect(first?.path).toBe("plan.passenger_mass");
    // Weighed: so sure it is then.
    const doubts = { "plan.passenger_mass": { spread: "normal", half: 0.03 * 75 } } as const;
    const after = bands({ ...filesOf({ passenger_mass_kg: 75 }), doubts }, "brakes", found, spread);
    const said = first!.band_then!.p95 - first!.band_then!.p05;
    expect(Math.abs(width(after.bands.run_on_m!) - said)).toBeLessThan(0.12 * width(before.bands.run_on_m!));
  });
});
