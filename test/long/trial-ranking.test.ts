import { beforeAll, describe, expect, test } from "vitest";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { Book, Chapter } from "../../packages/sim-core/src/studies/trial/book.js";
import { judge, type Taken } from "../../packages/sim-core/src/studies/trial/judged.js";
import type { RankedCause } from "../../packages/sim-core/src/studies/trial/rank.js";
import { statesOf } from "../../packages/sim-core/src/studies/trial/states.js";
import { type SheetStep, trialOf } from "../../packages/sim-core/src/studies/trial/trial.js";
import { clubOuting, LOCO, PLAN } from "../support/club.js";
import { draws } from "../support/draws.js";

// Faults made up and read by the whole model with its doubts and its instruments' errors drawn anew each time, and then
// looked for by the ranking, which knows of the model only what its book has: straight lines between sizes and along doubts.

const CASES = 2000;
const { lever: _, ...HELD } = PLAN;
const BRAKED: LocoDefinition = { ...LOCO, brakes: [{ rail_force_N: 300, delay_s: 0.2, build_up_s: 0.4 }] };

let book: Book;
let sheet: SheetStep[];
let faulty: { cause: string; causes: RankedCause[] }[];
let sound: RankedCause[][];
/** The same with doubts and errors half as wide again as they are thought to be. */
let wider: { cause: string; causes: RankedCause[] }[];

const { even, normal } = draws(7);

/** Half of the sheet, as somebody reads it on a machine with this wrong. */
function halfFilled(chapter?: Chapter, scatter = 1): Taken[] {
  let m = book.setting.machine;
  for (const doubt of book.doubts) m = doubt.apply(m, scatter * normal());
  if (chapter) {
    const { sizes, apply } = chapter.variant;
    m = apply(m, sizes[0]! + even() * (sizes.at(-1)! - sizes[0]!));
  }
  const gains = new Map(book.gauges.map(({ name, gain }) => [name, 1 + scatter * gain * normal()]));
  const states = statesOf(book.setting, m);
  return book.readings.flatMap(({ reading, instrument, value, misread }) => {
    const true_value = value(states);
    const wrong = true_value !== null && true_value > 0 ? misread.wrongNo : misread.wrongYes;
    const [filled, off, slip] = [even() < 0.5, scatter * normal(), even() < wrong];
    if (!filled) return [];
    if (!instrument)
      return [{ reading, value: (true_value === null ? even() < 0.5 : true_value > 0 !== slip) ? 1 : 0 }];
    if (true_value === null) return [];
    const { share, besides } = instrument;
    const read = true_value * (gains.get(instrument.name) ?? 1) + Math.hypot(share * true_value, besides) * off;
    return [{ reading, value: read }];
  });
}

beforeAll(() => {
  const plan = { ...HELD, speed_mps: 1.6 };
  const ready = trialOf(clubOuting(BRAKED, plan), BRAKED, { long: true });
  sheet = ready.sheet.filter(({ step }) => step !== "after_laps");
  const names = sheet.flatMap(({ readings }) => readings);
  book = ready.book(names.map(({ reading }) => reading));
  const chapters = book.chapters.filter(({ cause }) => cause.cause !== "nothing_wrong");
  const causes = [...new Set(chapters.map(({ cause }) => cause.cause))];
  faulty = Array.from({ length: CASES }, (_, i) => {
    const cause = causes[i % causes.length]!;
    const ways = chapters.filter((chapter) => chapter.cause.cause === cause);
    const taken = halfFilled(ways[Math.floor(even() * ways.length)]);
    return { cause, causes: judge(book, { taken }).causes! };
  });
  sound = Array.from({ length: CASES }, () => judge(book, { taken: halfFilled() }).causes!);
  wider = Array.from({ length: CASES }, (_, i) => {
    const cause = i % 2 === 0 ? "nothing_wrong" : causes[i % causes.length]!;
    const ways = chapters.filter((chapter) => chapter.cause.cause === cause);
    const taken = halfFilled(ways[Math.floor(even() * ways.length)], 1.5);
    return { cause, causes: judge(book, { taken }).causes! };
  });
}, 1_800_000);

const lineNames = () => sheet.flatMap(({ readings }) => readings.filter(({ expected }) => expected !== null));

const places = (within: number) =>
  faulty.filter(({ cause, causes }) => causes.slice(0, within).some((each) => each.cause === cause)).length / CASES;

describe("on half filled sheets", () => {
  test("the true cause comes first in nine of ten, and among the first two in 98 of a hundred", () => {
    expect(places(1)).toBeGreaterThanOrEqual(0.9);
    expect(places(2)).toBeGreaterThanOrEqual(0.98);
  });

  // Sound machines are among them as often as faulty ones, which is what is taken beforehand.
  test("of causes given a probability of 0.8 to 0.9, 75 to 95 in a hundred are true", () => {
    const given = [
      ...faulty.flatMap(({ cause, causes }) => causes.map((each) => [each.probability, each.cause === cause] as const)),
      ...sound.flatMap((causes) => causes.map((each) => [each.probability, each.cause === "nothing_wrong"] as const)),
    ].filter(([probability]) => probability >= 0.8 && probability < 0.9);
    expect(given.length).toBeGreaterThan(15);
    const share = given.filter(([, right]) => right).length / given.length;
    expect(share).toBeGreaterThanOrEqual(0.75);
    expect(share).toBeLessThanOrEqual(0.95);
  });

  test("a sound loco is given a fault above a half in no more than two of a hundred", () => {
    const blamed = sound.filter((causes) =>
      causes.some(({ cause, probability }) => cause !== "nothing_wrong" && probability > 0.5),
    );
    expect(blamed.length / CASES).toBeLessThanOrEqual(0.02);
  });
});

test("of causes given over 99 % where scatter is half as wide again as is thought, 97 in a hundred are true", () => {
  const given = wider.flatMap(({ cause, causes }) =>
    causes.filter(({ probability }) => probability > 0.99).map((each) => each.cause === cause),
  );
  expect(given.length).toBeGreaterThan(CASES / 5);
  expect(given.filter((right) => right).length / given.length).toBeGreaterThanOrEqual(0.97);
});

test("several readings outside their bands forbid that nothing is wrong", () => {
  const lines = lineNames().slice(0, 30);
  const taken = lines.map(({ reading, expected, high }, i) => ({
    reading,
    value:
      typeof expected === "number"
        ? i % 3 === 0
          ? expected + 1.02 * (high! - expected)
          : expected
        : expected === "yes"
          ? 1
          : 0,
  }));
  const { causes, taken: read } = judge(book, { taken });
  expect(read.filter(({ outside }) => outside).length).toBeGreaterThanOrEqual(4);
  expect(causes.find(({ cause }) => cause === "nothing_wrong")!.probability).toBe(0);
});

describe("probabilities", () => {
  test("add up to one, fall down the list, and are shared out among a cause's ways", () => {
    for (const { causes } of faulty.slice(0, 40)) {
      expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
      for (const [i, { probability, ways }] of causes.entries()) {
        if (i > 0) expect(probability).toBeLessThanOrEqual(causes[i - 1]!.probability);
        if (ways.length > 0) expect(ways.reduce((sum, way) => sum + way.probability, 0)).toBeCloseTo(probability, 9);
      }
    }
  });

  test("follow what is told beforehand, in proportion", () => {
    const taken = halfFilled();
    const before = judge(book, { taken }).causes!;
    const after = judge(book, { taken, priors: { flat_battery: 5 } }).causes!;
    const odds = (causes: readonly RankedCause[]) => {
      const of = (name: string) => causes.find(({ cause }) => cause === name)!.probability;
      return of("flat_battery") / of("old_battery");
    };
    expect(odds(after) / odds(before)).toBeCloseTo(5, 6);
  });

  test("of readings that fit nothing go to none of these", () => {
    const taken = [
      { reading: "rest_volts", value: 41 },
      { reading: "run_speed", value: 9 },
      { reading: "stands_rpm_full", value: 40 },
      { reading: "run_motor_amps", value: 150 },
      { reading: "roll_train", value: 900 },
    ];
    expect(judge(book, { taken }).causes![0]!.cause).toBe("none_of_these");
  });
});

describe("the next reading", () => {
  test("is one not yet taken, on which the leading causes differ", () => {
    const taken = [
      { reading: "rest_volts", value: 24.2 },
      { reading: "moves", value: 1 },
      { reading: "run_battery_volts", value: 23.9 },
    ];
    const { next_reading, causes } = judge(book, { taken });
    expect(causes!.slice(0, 2).map(({ cause }) => cause)).toEqual(
      expect.arrayContaining(["flat_battery", "bad_battery"]),
    );
    expect(next_reading!.reading).toMatch(/^battery_[12]_volts$/);
    const values = next_reading!.would_read.map(({ value }) => value);
    expect(new Set(values).size).toBeGreaterThan(1);
  });
});
