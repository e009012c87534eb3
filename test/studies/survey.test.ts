import { describe, expect, test } from "vitest";
import { newNotes } from "../../packages/sim-core/src/errors.js";
import { check, createPlan, draw, type LimitsAnswer, limits } from "../../packages/sim-core/src/index.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { TrackColumns } from "../../packages/sim-core/src/parts/track.columns.js";
import { createTrack, heightAreaTo_m2, leant, mirrored } from "../../packages/sim-core/src/parts/track.js";
import { LOCO, PLAN } from "../support/club.js";
import { profile } from "../support/profiles.js";

/** Invented: a hump of 1 in 80, and little charge, so that a day is short. */
const HUMP = profile([
  [0, 0],
  [60, 0.75],
  [100, 0.75],
  [160, 0],
]);
const { lever: _, ...held } = PLAN;
const PLANNED: PlanDefinition = { ...held, speed_mps: 1.5, charge: 0.06, passengers: 2 };
const SHORT: LocoDefinition = {
  ...LOCO,
  battery: { ...LOCO.battery, use_down_to: 0.02 },
  brakes: [{ rail_force_N: 400, use: "both" }],
};
const doubted = (sineDoubt: number, track: TrackColumns = HUMP): TrackColumns => ({
  ...track,
  sineDoubt: track.distance_m.map(() => sineDoubt),
});
const may = (track: TrackColumns, kind?: "end-to-end"): LimitsAnswer =>
  limits({ plan: { ...PLANNED, track: { ...PLANNED.track, ...(kind && { kind }) } }, loco: SHORT, track });
const mosts = ({ aboard }: LimitsAnswer) => aboard.map(({ most }) => most ?? -1);

describe("a profile that tells the doubt of its gradients", () => {
  const bare = may(HUMP);
  test("nearly no doubt changes no judgement", () => {
    const { aboard, speeds, may_carry, most_aboard } = may(doubted(1e-9));
    expect(may_carry).toBe(true);
    expect({ most_aboard, aboard: aboard.map(({ most }) => most), speeds: speeds.length }).toEqual({
      most_aboard: bare.most_aboard,
      aboard: bare.aboard.map(({ most }) => most),
      speeds: bare.speeds.length,
    });
  });
  test("more doubt lets no more people ride, by any limit that gradients bound, and much of it nobody", () => {
    const answers = [bare, ...[0.01, 0.06].map((each) => may(doubted(each)))];
    for (const [i, answer] of answers.slice(1).entries()) {
      const before = answers[i] as LimitsAnswer;
      expect(answer.most_aboard).toBeLessThanOrEqual(before.most_aboard);
      for (const limit of ["restart", "stopping", "parking"]) {
        const of = ({ aboard }: LimitsAnswer) =>
          aboard.filter((each) => each.limit === limit).map((each) => each.most ?? -1);
        of(answer).forEach((most, k) => void expect(most, limit).toBeLessThanOrEqual(of(before)[k] as number));
      }
    }
    expect(mosts(answers.at(-1) as LimitsAnswer)).not.toEqual(mosts(bare));
    expect(answers.at(-1)).toMatchObject({ may_carry: false, most_aboard: 0 });
    // The first bears them still, but is not good enough to give anybody leave.
    const [, first] = answers;
    expect(first?.aboard.at(-1)).toMatchObject({ limit: "survey", most: 0, lifted_by: "survey" });
    expect(first?.may_carry).toBe(false);
  });
  test("both ways of a line with ends are counted the worse way", () => {
    const track = profile([
      [0, 0],
      [60, 0],
    ]);
    const open = may(doubted(0.06, track), "end-to-end");
    expect(open.may_carry).toBe(false);
    expect(open.standing.chocks.length).toBeGreaterThan(0);
  });
});

describe("a profile whose levelling will not do", () => {
  const told = (levelling: TrackColumns["levelling"]): TrackColumns => ({ ...HUMP, ...(levelling && { levelling }) });
  test("lets nobody ride, with no doubt told and of one stretch alone, and nothing else of it changes", () => {
    const bare = may(HUMP);
    expect(bare.may_carry).toBe(true);
    for (const [word, lifted_by] of [
      ["not accepted", "survey_accepted"],
      ["not closed", "survey_closed"],
      ["by receiver", "survey"],
    ] as const) {
      const found = may(told(["", word, "", ""]));
      expect(found).toMatchObject({ may_carry: false, most_aboard: 0, most_aboard_by: "survey" });
      expect(found.aboard.at(-1)).toMatchObject({ limit: "survey", most: 0, lifted_by });
      expect(found.aboard.slice(0, -1)).toEqual(bare.aboard);
    }
    expect(may(told(["", "", "", ""])).most_aboard).toBe(bare.most_aboard);
  });
  test("the gravest word of several is told, and mirrored it stays", () => {
    const track = createTrack(told(["by receiver", "not closed", "not accepted", ""]), "circuit", false, newNotes());
    expect([track.levelling, mirrored(track).levelling, leant(track, 1).levelling]).toEqual(
      Array(3).fill("not accepted"),
    );
  });
  test("a circuit that misses by too much and is spread as asked is none that was accepted", () => {
    const open = { ...HUMP, height_m: [0, 0.75, 0.75, 0.2] };
    expect(createTrack(open, "circuit", true, newNotes()).levelling).toBe("not accepted");
    expect(createTrack(HUMP, "circuit", true, newNotes()).levelling).toBeNull();
  });
  test("any other word is refused with its post", () => {
    const wrong = told(["", "fine" as never, "", ""]);
    expect(() => createPlan(PLANNED, SHORT, wrong)).toThrow(/track\.2\.levelling/);
  });
  test("a draw of it is no better", () => {
    const drawn = draw({ plan: PLANNED, loco: SHORT, track: told(["", "not closed", "", ""]) }, [], [], 1).track;
    expect(drawn.levelling).toEqual(["", "not closed", "", ""]);
  });
});

describe("check", () => {
  const of = (track: TrackColumns) => {
    const plan = createPlan(PLANNED, SHORT, track);
    return { survey: check(plan).survey, codes: plan.notes.warnings.map(({ code }) => code) };
  };
  test("no doubt told, none answered", () => {
    expect(of(HUMP).survey).toBeNull();
  });
  test("a levelled survey is good enough, a receiver's is warned of and tells no steepest bit", () => {
    const levelled = of(doubted(0.0005));
    expect(levelled.survey).toMatchObject({ good_enough: true, steepest_is_told: true });
    expect(levelled.survey?.doubt_percent).toBeCloseTo(0.05, 6);
    expect(levelled.survey?.steepest_counted_percent).toBeCloseTo(1.3, 6);
    expect(levelled.codes).not.toContain("doubtful_profile");
    const received = of(doubted(0.06));
    expect(received.survey).toMatchObject({ good_enough: false, steepest_is_told: false });
    expect(received.codes).toContain("doubtful_profile");
  });
  test("a doubt that is no share is refused with its post", () => {
    expect(() => of(doubted(-0.01))).toThrow(/track\.1\.sineDoubt/);
    expect(() => of({ ...HUMP, sineDoubt: [0.1] })).toThrow(/1 values, and there are 4 posts/);
  });
});

describe("a line that leans", () => {
  const track = createTrack(doubted(0.03), "circuit", false, newNotes());
  test("is as much steeper as told, seen from either end, and upright again", () => {
    const slope = ({ height_m: h, distance_m: d }: typeof track) => (h[1]! - h[0]!) / (d[1]! - d[0]!);
    expect(slope(leant(track, 1))).toBeCloseTo(0.0125 + 0.03, 12);
    expect(slope(leant(track, -1))).toBeCloseTo(0.0125 - 0.03, 12);
    expect(slope(leant(mirrored(leant(track, 1)), 1))).toBeCloseTo(0.0125 + 0.03, 12);
    expect(slope(leant(leant(track, -1), 0))).toBeCloseTo(0.0125, 12);
  });
  test("goes on rising from lap to lap: the area under it is the integral of its height", () => {
    const up = leant(track, 1);
    const lean_m = 0.03 * track.length_m;
    const at = (x: number) => (heightAreaTo_m2(up, x + 0.5) - heightAreaTo_m2(up, x - 0.5)) / 1;
    for (const laps of [-2, -1, 1, 2]) expect(at(80 + laps * 160) - at(80)).toBeCloseTo(laps * lean_m, 9);
  });
});

describe("draws", () => {
  const files = (track: TrackColumns) => ({ plan: PLANNED, loco: SHORT, track });
  const rises = (track: TrackColumns) =>
    Array.from({ length: 400 }, (_, seed) => {
      const drawn = draw(files(track), [], [], seed + 1).track;
      expect(drawn.sineDoubt).toBeUndefined();
      const heights = drawn.height_m as number[];
      expect(heights.at(-1)).toBeCloseTo(0, 9);
      return (heights[1]! - heights[0]!) / 60;
    });
  const spread = (values: number[]) => {
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    return Math.sqrt(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (values.length - 1));
  };
  test("spread as wide as the survey says, less what closing the circuit tells of each stretch", () => {
    // Rises in doubt by 0.6, 0.4 and 0.6 m that must add up to nothing: the first keeps 1 - 0.36/0.88 of its variance.
    const wanted = (0.01 / 1.96) * Math.sqrt(1 - 0.36 / 0.88);
    // Of 400, a standard deviation is told to 1 part in 28: three of them.
    expect(Math.abs(spread(rises(doubted(0.01))) / wanted - 1)).toBeLessThan(3 / Math.sqrt(800));
  });
  test("a line with ends does not have to come round to anything", () => {
    const plan = { ...PLANNED, track: { ...PLANNED.track, kind: "end-to-end" as const } };
    const slope = doubted(0.01, { distance_m: [0, 100], sine: [0.01, 0] });
    const drawn = Array.from(
      { length: 400 },
      (_, seed) => draw({ ...files(slope), plan }, [], [], seed + 1).track.sine?.[0],
    );
    expect(Math.abs(spread(drawn as number[]) / (0.01 / 1.96) - 1)).toBeLessThan(3 / Math.sqrt(800));
  });
  test("a good survey narrows them below the usual staff's, a poor one widens them", () => {
    const usual = spread(rises(HUMP));
    expect(spread(rises(doubted(1e-6)))).toBeLessThan(usual);
    expect(spread(rises(doubted(0.01)))).toBeGreaterThan(usual);
  });
});
