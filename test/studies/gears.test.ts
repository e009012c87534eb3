import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { HEADLINES } from "../../packages/sim-core/src/doubt/headlines.js";
import { resistance_N } from "../../packages/sim-core/src/drive/pull.js";
import { InputError, newNotes } from "../../packages/sim-core/src/errors.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { createGears } from "../../packages/sim-core/src/parts/gears.js";
import { restartsAt } from "../../packages/sim-core/src/studies/climb/climb.js";
import { chainsOf, type Duty } from "../../packages/sim-core/src/studies/gears/chains.js";
import { choicesOf, fitted, type Pair, regeared } from "../../packages/sim-core/src/studies/gears/choices.js";
import { type GearsAnswer, type GearsRow, gears } from "../../packages/sim-core/src/studies/gears/gears.js";
import { continuousCurrent_A } from "../../packages/sim-core/src/studies/gears/steady.js";
import type { Plan } from "../../packages/sim-core/src/train/plan.js";
import { CIRCUIT, clubPlan, filesOf, LOCO } from "../support/club.js";
import { level, slope } from "../support/profiles.js";
import { textbookPlan } from "../support/textbook.js";

const G_mps2 = 9.80665;
const DRIVEN = { speed_mps: 1.8 };
const codes = (row: GearsRow) => row.faults.map(({ code }) => code);
const rowOf = (answer: GearsAnswer, ...teeth: Pair[]): GearsRow => {
  const found = answer.rows.find((row) => JSON.stringify(row.teeth) === JSON.stringify(teeth));
  if (!found) throw new Error(`${JSON.stringify(teeth)} is not among the rows`);
  return found;
};
const with_ = (stages: LocoDefinition["gears"], loco: Partial<LocoDefinition> = {}) =>
  clubPlan(CIRCUIT, DRIVEN, { ...loco, gears: stages });

describe("one tooth more on the driver", () => {
  // 1000 kg that take 100 N, a motor of 24 V, 1 N m/A and 0.05 ohm, 300 N m at most; a closed box of 1 to 1 before the chain.
  const winding_ohm = 0.05;
  const plan = textbookPlan({ mass_kg: 1000, A_N: 100, pull_N: 300, battery_V: 24, winding_ohm, track: level(20) });
  const answer = gears(plan, [11, 12, 44]);
  const [eleven, twelve] = [rowOf(answer, [11, 44]), rowOf(answer, [12, 44])];

  it("makes it faster by its share, but for what the winding takes", () => {
    const back_V = (driving: number) => 24 - winding_ohm * ((100 * driving) / 44 / 0.97);
    expect(twelve.speed_mps / eleven.speed_mps).toBeCloseTo((12 * back_V(12)) / (11 * back_V(11)), 9);
  });

  it("makes it pull less by the inverse", () => {
    const pull_N = (row: GearsRow) => (row.restart_gradient_percent / 100) * 1000 * G_mps2 + 100;
    expect(pull_N(eleven)).toBeCloseTo(300 * 4 * 0.97, 6);
    expect(pull_N(twelve) / pull_N(eleven)).toBeCloseTo(11 / 12, 9);
  });

  it("makes the motor take more current at one speed by its share", () => {
    expect(twelve.motor_current_A / eleven.motor_current_A).toBeCloseTo(12 / 11, 9);
    expect(eleven.motor_current_A).toBeCloseTo(100 / (4 * 0.97), 9);
  });
});

describe("another drive in the same train", () => {
  const pair = fc.tuple(fc.integer({ min: 9, max: 20 }), fc.integer({ min: 21, max: 60 }));

  it("is the train that is made with it", () => {
    const plan = clubPlan(CIRCUIT, DRIVEN);
    fc.assert(
      fc.property(pair, pair, (first, second) => {
        const stages = [
          { ...LOCO.gears[0], teeth: first },
          { ...LOCO.gears[1], teeth: second },
        ];
        const made = with_(stages).train;
        const changed = regeared(plan.train, fitted(plan.train.gears, [first, second]));
        expect(changed.gears).toEqual(made.gears);
        expect(changed.rim_kg).toBeCloseTo(made.rim_kg, 9);
        expect(changed.effective_kg).toBeCloseTo(made.effective_kg, 9);
      }),
      { numRuns: 25 },
    );
  });

  it("keeps closed gearboxes where they are", () => {
    const own = createGears([{ teeth: [12, 24], chain: "06B", centres_m: 0.2 }, { ratio: 5 }], newNotes());
    const two = fitted(own, [
      [11, 33],
      [10, 20],
    ]);
    expect(two.stages.map(({ ratio }) => ratio)).toEqual([3, 5, 2]);
    expect(two.stages.map(({ chain }) => chain)).toEqual(["06B", undefined, "06B"]);
    expect(two.stages.map(({ centres_m }) => centres_m)).toEqual([0.2, undefined, undefined]);
    expect(fitted(own, [[11, 33]]).ratio).toBeCloseTo(15, 12);
  });
});

describe("the motor's continuous current", () => {
  // The heat rule has the winding settle at its class, in air of 40 °C, at just this current.
  it("is the rated one unless told", () => {
    expect(continuousCurrent_A(clubPlan().train)).toBeCloseTo(26.7, 9);
  });
  it("is the one told", () => {
    const motor = { ...LOCO.motor, heat: { mass_kg: 6, continuous_current_A: 21 } };
    expect(continuousCurrent_A(clubPlan(CIRCUIT, {}, { motor }).train)).toBeCloseTo(21, 9);
  });
});

describe("ranking", () => {
  const plan = clubPlan(CIRCUIT, DRIVEN);
  const answers: [string, GearsAnswer][] = [
    ["what shops keep", gears(plan)],
    ["a box of five", gears(plan, [9, 11, 13, 57, 60])],
    ["a box of four", gears(plan, [11, 12, 30, 45])],
  ];

  it.each(answers)("%s: fewest faults first, nearest the speed first among equals", (_, { rows, wanted_speed_mps }) => {
    expect(wanted_speed_mps).toBe(1.8);
    expect(rows.length).toBeGreaterThan(3);
    for (const [i, row] of rows.slice(1).entries()) {
      const before = rows[i]!;
      expect(row.faults.length).toBeGreaterThanOrEqual(before.faults.length);
      if (row.faults.length > before.faults.length) continue;
      expect(Math.abs(row.speed_mps - 1.8)).toBeGreaterThanOrEqual(Math.abs(before.speed_mps - 1.8));
    }
  });

  it.each(answers)("%s: a row without fault does all that is asked of it", (_, answer) => {
    for (const row of answer.rows.filter(({ faults }) => faults.length === 0)) {
      expect(row.outcome).toBe("completed");
      expect(row.restart_gradient_percent).toBeGreaterThanOrEqual(answer.ruling_gradient_compensated_percent);
      expect(row.rms_motor_current_A).toBeLessThanOrEqual(answer.continuous_current_A);
      expect(row.peak_winding_temperature_C).toBeLessThanOrEqual(130);
      expect(row.chain_margin).toBeGreaterThanOrEqual(6);
      for (const chain of row.chains) expect(chain.rating_W).toBeGreaterThanOrEqual(chain.rating_wanted_W);
    }
  });

  it.each(answers)("%s: one row for one ratio", (_, { rows }) => {
    const ratios = rows.map(({ ratio }) => ratio).sort((a, b) => a - b);
    for (const [i, ratio] of ratios.slice(1).entries()) expect(ratio / ratios[i]!).toBeGreaterThan(1 + 1e-9);
  });

  it("comes near the wanted speed where shops keep the teeth", () => {
    expect(Math.abs(answers[0]![1].rows[0]!.speed_mps / 1.8 - 1)).toBeLessThan(0.02);
  });

  it("says what was left out, and what was taken for granted", () => {
    const { choices, simulated, rows, remarks } = answers[0]![1];
    expect(simulated).toBe(rows.length);
    expect(choices).toBeGreaterThan(1000 * simulated);
    expect(remarks.map(({ code }) => code)).toEqual(
      expect.arrayContaining(["shortlist", "stocked_teeth", "chain_assumed", "no_centres"]),
    );
  });

  it("refuses a restart just where running it shows that it stays", () => {
    // A steep place and few teeth, so that some start there and some do not.
    const steep = clubPlan(slope(0.035, 400), {
      ...DRIVEN,
      track: { kind: "end-to-end", at_ends: "turn" },
    });
    const { rows } = gears(steep, [10, 20, 25, 40]);
    const there = 100;
    const shown = rows.map((row) => {
      const train = regeared(steep.train, fitted(steep.train.gears, row.teeth));
      return [codes(row).includes("no_restart"), !restartsAt({ ...steep, train }, there)];
    });
    expect(shown.map(([said]) => said)).toEqual(shown.map(([, ran]) => ran));
    expect(new Set(shown.map(([said]) => said)).size).toBe(2);
  });
});

describe("odd boxes of sprockets", () => {
  const plan = clubPlan(CIRCUIT, DRIVEN);

  it("one sprocket goes one to one", () => {
    const { rows, choices } = gears(plan, [8]);
    expect(choices).toBe(1);
    expect(rows.map(({ teeth, ratio }) => [teeth, ratio])).toEqual([[[[8, 8]], 1]]);
    expect(codes(rows[0]!)).toEqual(expect.arrayContaining(["few_teeth", "no_restart"]));
  });
  it("none at all give no rows", () => {
    expect(gears(plan, [])).toMatchObject({ rows: [], choices: 0, simulated: 0 });
  });
  it("duplicates and order change nothing", () => {
    expect(gears(plan, [36, 12, 36, 12]).rows).toEqual(gears(plan, [12, 36]).rows);
  });
  it("of equal ratios the smaller sprockets stay", () => {
    const { rows } = gears(plan, [12, 13, 36, 39], { most: 50 });
    const three = rows.filter(({ ratio }) => Math.abs(ratio - 3) < 1e-9);
    expect(three.map(({ teeth }) => teeth)).toEqual([[[12, 36]]]);
  });
  it("what is no sprocket is refused", () => {
    for (const teeth of [[0], [-12, 36], [12.5], [Number.NaN], [4], [1000]]) {
      expect(() => gears(plan, teeth)).toThrow(InputError);
    }
  });
  it("any box gives whole figures", () => {
    const box = fc.array(fc.integer({ min: 5, max: 130 }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(box, (teeth) => {
        for (const row of gears(plan, teeth, { most: 2 }).rows) {
          for (const value of Object.values(row)) if (typeof value === "number") expect(value).not.toBeNaN();
          for (const chain of row.chains) expect(Object.values(chain)).not.toContain(Number.NaN);
        }
      }),
      { numRuns: 25 },
    );
  });
  it("counts every way: pairs and one to one in one stage, pairs of pairs in two", () => {
    expect(choicesOf([9, 11, 13]).length).toBe(6 + 9);
  });
});

describe("other plans", () => {
  it("where a lever is held, the speed as it is geared now is wanted", () => {
    const plan = clubPlan(CIRCUIT, { lever: 0.8 });
    const answer = gears(plan, [11, 45, 12, 30]);
    expect(rowOf(answer, [11, 45], [12, 30]).speed_mps).toBeCloseTo(answer.wanted_speed_mps, 9);
    expect(answer.rows[0]!.teeth.flat().toSorted()).toEqual([11, 12, 30, 45]);
  });
  it("a line is judged the way that is harder", () => {
    const track = { kind: "end-to-end", at_ends: "turn" } as const;
    const [up, down] = [0.02, -0.02].map((sine) => gears(clubPlan(slope(sine, 300), { ...DRIVEN, track }), [12, 36]));
    expect(down!.ruling_gradient_compensated_percent).toBeCloseTo(up!.ruling_gradient_compensated_percent, 9);
    expect(down!.ruling_gradient_compensated_percent).toBeCloseTo(2, 9);
  });
  it("the stock is that of the chain named", () => {
    const plan = with_([{ teeth: [12, 36], chain: "40" }]);
    const { teeth_to_hand, rows, remarks } = gears(plan, undefined, { most: 1 });
    expect(teeth_to_hand).toContain(72);
    expect(rows[0]!.chains.map(({ chain }) => chain)).toEqual(["40", "40"]);
    expect(remarks.map(({ code }) => code)).not.toContain("chain_assumed");
  });
  it("chains that look alike are told apart", () => {
    const plan = with_([
      { teeth: [12, 36], chain: "08B" },
      { teeth: [12, 36], chain: "40" },
    ]);
    expect(gears(plan, [12, 36]).remarks.map(({ code }) => code)).toContain("mixed_chains");
  });
});

describe("chains of a choice", () => {
  const plan: Plan = with_([
    { teeth: [12, 36], chain: "06B", centres_m: 0.2 },
    { teeth: [13, 37], chain: "08B", centres_m: 0.3 },
  ]);
  const row = rowOf(gears(plan, [12, 36, 13, 37], { most: 50 }), [12, 36], [13, 37]);

  it("carry the power of the level at the wanted speed, less what the chains after them lose", () => {
    const atRims_W = resistance_N(plan.train, 1.8) * 1.8;
    const [first, second] = row.chains.map((chain) => chain.mean_tension_N * chain.chain_speed_mps);
    expect(second).toBeCloseTo(atRims_W / 0.97, 9);
    expect(first).toBeCloseTo(atRims_W / 0.97 ** 2, 9);
  });
  it("have an even number of links, at centres close to those asked for", () => {
    for (const [i, chain] of row.chains.entries()) {
      expect(chain.links! % 2).toBe(0);
      expect(Math.abs(chain.centres_m! - [0.2, 0.3][i]!)).toBeLessThan([0.009525, 0.0127][i]! / 2 + 1e-4);
      expect(chain.slack_m! / chain.centres_m!).toBeCloseTo(0.02, 2);
    }
  });
  it("are loaded by what dry rail would grip, however wet it is today", () => {
    const wet = clubPlan(CIRCUIT, { ...DRIVEN, track: { rail: "wet" } });
    const dry = clubPlan(CIRCUIT, { ...DRIVEN, track: { rail: "dry" } });
    const margins = [wet, dry].map((each) => gears(each, [12, 36]).rows[0]!.chain_margin);
    expect(margins[0]).toBe(margins[1]);
  });

  const duty: Duty = {
    running_N: 60,
    running_mps: 1.8,
    hardest_N: 500,
    rated_W: 500,
    rated_radps: 272,
    radius_m: 0.0825,
  };
  const faultsOf = (stage: LocoDefinition["gears"][number], changed: Partial<Duty> = {}) =>
    chainsOf(createGears([stage], newNotes()), { ...duty, ...changed }).faults.map(({ code }) => code);

  it.each<[string, LocoDefinition["gears"][number], Partial<Duty>, string[]]>([
    ["well chosen", { teeth: [12, 30], chain: "08B", centres_m: 0.3 }, {}, []],
    ["few teeth", { teeth: [8, 24] }, {}, ["few_teeth"]],
    ["too great a ratio", { teeth: [9, 64], chain: "04B" }, { hardest_N: 50 }, ["stage_ratio"]],
    ["too many teeth", { teeth: [60, 121], chain: "04B" }, { radius_m: 1 }, ["many_teeth", "chain_margin"]],
    ["a weak chain", { teeth: [12, 30], chain: "04B" }, {}, ["chain_margin"]],
    ["a chain rated for less", { teeth: [12, 30], chain: "25" }, { hardest_N: 50, rated_W: 1000 }, ["chain_rating"]],
    ["sprockets that touch", { teeth: [12, 30], chain: "08B", centres_m: 0.08 }, {}, ["sprockets_touch"]],
    ["little wrap", { teeth: [9, 60], chain: "05B", centres_m: 0.1 }, {}, ["little_wrap"]],
    ["a sprocket below the rail", { teeth: [12, 38], chain: "08B" }, {}, ["below_rail"]],
  ])("%s", (_, stage, changed, expected) => {
    expect(faultsOf(stage, changed)).toEqual(expected);
  });
});

describe("the gearing that the plan has", () => {
  const plan = clubPlan(CIRCUIT, DRIVEN);
  const answer = gears(plan, [11, 12, 30, 45]);

  it("is tried as the choices are", () => {
    // Closed gearboxes and layshafts are those of the file: only where they are alike is the row the same.
    const row = rowOf(answer, [11, 45], [12, 30]);
    const { own } = answer;
    expect(own.teeth).toEqual(row.teeth);
    for (const name of [
      "ratio",
      "speed_mps",
      "restart_gradient_percent",
      "rms_motor_current_A",
      "chain_margin",
    ] as const)
      expect(own[name]).toBeCloseTo(row[name] as number, 6);
    expect(codes(own)).toEqual(codes(row));
  });

  it("has no teeth where it is closed, and its faults all the same", () => {
    const { own } = gears(with_([{ ratio: 2 }]), [11, 12, 30, 45]);
    expect(own.teeth).toEqual([]);
    expect(own.chain_margin).toBeNull();
    expect(codes(own)).toContain("no_restart");
  });

  // With one stage where the file has two, or two where it has one, a band's draws are of the choice and of nothing else.
  it.each<[string, LocoDefinition["gears"], Pair[]]>([
    ["fewer stages", LOCO.gears, [[12, 45]]],
    [
      "more stages",
      [{ teeth: [11, 45], efficiency: 0.96 }],
      [
        [11, 45],
        [12, 30],
      ],
    ],
    ["a closed box that stays", [{ ratio: 2 }, { teeth: [11, 45] }], [[12, 30]]],
  ])("is not what a band of another choice is of: %s", (_, stages, teeth) => {
    const row = rowOf(gears(with_(stages), [...new Set(teeth.flat())], { most: 60 }), ...teeth);
    const { figures } = HEADLINES.gears({ ...filesOf({ gears: stages }, DRIVEN), tables: {} }, { teeth }, 0);
    expect(figures["restart_gradient_percent"]).toBeCloseTo(row.restart_gradient_percent, 9);
  });
});
