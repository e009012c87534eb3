import type { SheetReading } from "@rideon/sim-core";
import { createPlan } from "@rideon/sim-core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { percent, plainly } from "../../packages/sim-cli/src/questions/trial/ranked/chance.js";
import { aboutSize } from "../../packages/sim-cli/src/questions/trial/ranked/sizes.js";
import { ratioWords, teethFor } from "../../packages/sim-cli/src/questions/trial/sheet/gearing.js";
import { readingLabel } from "../../packages/sim-cli/src/questions/trial/sheet/labels.js";
import { asMarked, bandWords, expectedWords, readingValue } from "../../packages/sim-cli/src/questions/trial/units.js";
import { eyesFor } from "../../packages/sim-cli/src/words/eyes.js";
import { readWell } from "../support/folder.js";

const reading = readWell();
const plan = createPlan(reading.plan, reading.loco, reading.track, reading.tables);
const [asTyped, metric, imperial] = [undefined, "metric" as const, "imperial" as const].map((asked) =>
  eyesFor("imperial", asked, plan.track),
) as [ReturnType<typeof eyesFor>, ReturnType<typeof eyesFor>, ReturnType<typeof eyesFor>];

const line = (unit: SheetReading["unit"], expected: number, low: number, high: number): SheetReading => ({
  ...{
    reading: "x",
    what: "",
    unit,
    instrument: null,
    tools: [],
    or_else: null,
    expected,
    low,
    high,
    yes_probability: null,
  },
});
const yes = (probability: number): SheetReading => ({
  ...line("yes/no", 0, 0, 0),
  ...{ expected: probability >= 0.5 ? "yes" : "no", low: null, high: null, yes_probability: probability },
});

describe("readings in people's units", () => {
  test("volts to the hundredth, amps to the tenth, and nothing", () => {
    expect(readingValue(25.3, "V", asTyped)).toBe("25.30 V");
    expect(readingValue(8.19, "A", asTyped)).toBe("8.2 A");
    expect(readingValue(-0.001, "V", asTyped)).toBe("0.00 V");
    expect(readingValue(null, "V", asTyped)).toBe("nothing");
    expect([readingValue(1, "yes/no", asTyped), readingValue(0, "yes/no", asTyped)]).toEqual(["yes", "no"]);
  });

  // Mile, foot and pound: international yard and pound agreement, 1959.
  test("speeds as the files have them; pulls and distances imperial only where it is asked for", () => {
    expect(readingValue(1.78816, "m/s", asTyped)).toBe("4.0 mph");
    expect(readingValue(1.78816, "m/s", metric)).toBe("1.79 m/s");
    expect([readingValue(100, "N", asTyped), readingValue(100, "N", imperial)]).toEqual(["100 N", "22.5 lbf"]);
    expect([readingValue(9.75, "m", asTyped), readingValue(9.75, "m", imperial)]).toEqual(["9.8 m", "32 ft"]);
    expect([readingValue(45, "°C", asTyped), readingValue(45, "°C", imperial)]).toEqual(["45 °C", "113 °F"]);
  });

  test("bands, and the same as the instrument is marked", () => {
    expect(bandWords(line("V", 25.3, 25.04, 25.56), asTyped)).toBe("25.04 to 25.56 V");
    // 98.0665 N is the weight of 10 kg (3rd CGPM, 1901).
    expect(asMarked(line("N", 98.0665, 49.03325, 147.09975), asTyped)).toBe("in kg 10.0, 5.0 to 15.0");
    expect(asMarked(line("N", 98.0665, 49, 147), imperial)).toBe("");
    expect(asMarked(line("m/s", 2, 1, 4), metric)).toBe("10 m in 5.0 s, 2.5 to 10.0");
    expect(asMarked(line("m/s", 2, 0, 4), metric)).toBe("");
  });

  test.each([
    [0.999, "yes"],
    [0.8, "likely yes"],
    [0.6, "either"],
    [0.4, "either"],
    [0.2, "likely no"],
    [0.001, "no"],
  ])("a yes as likely as %d should be: %s", (probability, words) => {
    expect(expectedWords(yes(probability), asTyped)).toBe(words);
  });

  test("what is read has words of its own, or its name", () => {
    expect(readingLabel("run_motor_amps")).toBe("running on the level, current in the motor's cable");
    expect(readingLabel("battery_2_volts")).toBe("volts of battery 2");
    expect(readingLabel("something_new")).toBe("something_new");
  });
});

describe("chances", () => {
  test("never none and never all", () => {
    expect([percent(1), percent(0.5), percent(0)]).toEqual(["over 99 %", "50 %", "under 1 %"]);
    fc.assert(fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (p) => !/^(0|100) %$/.test(percent(p))));
  });

  test("words grow with the chance", () => {
    expect([0.001, 0.05, 0.2, 0.5, 0.7, 0.95, 0.999].map(plainly)).toEqual([
      "very unlikely",
      "unlikely",
      "possibly",
      "as likely as not",
      "likely",
      "very likely",
      "almost certainly",
    ]);
  });
});

describe("sizes", () => {
  test("to two figures, with their range where it is one", () => {
    expect(aboutSize(70.3, 55.2, 90.4, "N", asTyped)).toBe("about 70 N (55 N to 90 N)");
    expect(aboutSize(70.3, 70.1, 70.4, "N", asTyped)).toBe("about 70 N");
    expect(aboutSize(0.35, 0.3, 0.4, "share", asTyped)).toBe("about 35 % (30 % to 40 %)");
  });
});

describe("sprockets", () => {
  const gears = (...teeth: [number, number][]) => ({
    gears: { ...plan.train.gears, stages: teeth.map((pair) => ({ ...plan.train.gears.stages[0]!, teeth: pair })) },
  });

  test("the one whose other teeth come to the ratio, within 2 %", () => {
    expect(teethFor(12 / 13, gears([12, 38]))).toBe("13 teeth in place of 12 on the driving sprocket");
    expect(teethFor(40 / 38, gears([12, 38]))).toBe("40 teeth in place of 38 on the driven sprocket");
    expect(teethFor(12 / 14, gears([11, 44], [12, 38]))).toBe("14 teeth in place of 12 on the second driving sprocket");
  });

  test("none for a gearbox, nor where none comes near", () => {
    const closed = { gears: { ...plan.train.gears, stages: [{ ...plan.train.gears.stages[0]!, teeth: undefined }] } };
    expect(teethFor(1.2, closed)).toBeUndefined();
    expect(teethFor(1.45, gears([9, 9]))).toBe("13 teeth in place of 9 on the driven sprocket");
    expect(teethFor(1.5, gears([8, 8]))).toBe("12 teeth in place of 8 on the driven sprocket");
    expect(teethFor(1.07, gears([9, 9]))).toBeUndefined();
  });

  test("whatever it names comes to the ratio", () => {
    const teeth = fc.integer({ min: 8, max: 60 });
    const property = fc.property(teeth, teeth, fc.double({ min: 0.67, max: 1.5, noNaN: true }), (a, b, by) => {
      const words = teethFor(by, gears([a, b]));
      const [, other, own, which] = /^(\d+) teeth in place of (\d+) on the (driving|driven)/.exec(words ?? "") ?? [];
      if (!words) return;
      const came = which === "driven" ? Number(other) / Number(own) : Number(own) / Number(other);
      expect(Math.abs(came / by - 1)).toBeLessThan(0.0205);
    });
    fc.assert(property);
  });

  test("the ratio beside the files' own", () => {
    const { ratio } = plan.train.gears;
    expect(ratioWords(2, { gears: { ...plan.train.gears, ratio: 6 } })).toBe("12 to 1 in place of 6 to 1");
    expect(ratioWords(1, plan.train)).toContain(`${Math.round(10 * ratio) / 10} to 1`);
  });
});
