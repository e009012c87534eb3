import { type Diagnostic, diagnosticLine, type Known, readReadings } from "@rideon/sim-cli/read";
import type { ReadingUnit } from "@rideon/sim-core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";

const reading = (name: string, unit: ReadingUnit, or_else: Known["or_else"] = null): Known => ({
  ...{ reading: name, unit, or_else },
});

const SHEET = [
  {
    readings: [
      reading("rest_volts", "V"),
      reading("run_amps", "A"),
      reading("roll_loco", "N"),
      reading("run_speed", "m/s"),
      reading("stop_loco", "m"),
      reading("wheel_diameter", "mm"),
      reading("steep_rise", "mm"),
      reading("stands_run_down", "s"),
      reading("stands_rpm_full", "rpm"),
      reading("motor_turns", "turns"),
      reading("after_case", "°C"),
      reading("run_forwards", "yes/no"),
    ],
  },
];

function read(text: string) {
  const problems: Diagnostic[] = [];
  return {
    filled: readReadings("sheet.csv", text, SHEET, problems),
    lines: problems.map((each) => diagnosticLine(each)),
  };
}

const errors = (text: string) => read(text).lines.map((line) => line.replace(/^sheet\.csv:/, ""));

function typedAs(name: string, typed: string): number | undefined {
  const { filled, lines } = read(`reading,value\n${name},"${typed}"\n`);
  expect(lines).toEqual([]);
  return filled?.taken[0]?.value;
}

// Inch, foot, mile and pound: international yard and pound agreement, 1959; weight by 9.80665 m/s² (3rd CGPM, 1901).
describe("values as people write them, in the sheet's units", () => {
  test.each<[string, string, number]>([
    ["rest_volts", "25.3 V", 25.3],
    ["rest_volts", "-25.3 volts", 25.3],
    ["run_amps", "74 A", 74],
    ["run_amps", "-74 amps", 74],
    ["run_amps", "0", 0],
    ["rest_volts", "25.2", 25.2],
    ["roll_loco", "60 N", 60],
    ["roll_loco", "12 lbf", 12 * 0.45359237 * 9.80665],
    ["roll_loco", "5 kgf", 5 * 9.80665],
    ["roll_loco", "5.2 kg", 5.2 * 9.80665],
    ["roll_loco", "12 lb", 12 * 0.45359237 * 9.80665],
    ["run_speed", "4 mph", 4 * 0.44704],
    ["run_speed", "5 km/h", 5 / 3.6],
    ["run_speed", "10 m in 5.6 s", 10 / 5.6],
    ["run_speed", "30 ft in 5 s", (30 * 0.3048) / 5],
    ["run_speed", "0 mph", 0],
    ["stop_loco", "31 ft", 31 * 0.3048],
    ["stop_loco", "31 ft 6 in", 31.5 * 0.3048],
    ["wheel_diameter", "170 mm", 170],
    ["wheel_diameter", "6 3/4 in", 6.75 * 25.4],
    ["steep_rise", "-12 mm", -12],
    ["stands_run_down", "18 s", 18],
    ["stands_run_down", "1 min 5 s", 65],
    ["stands_rpm_full", "210 rpm", 210],
    ["stands_rpm_full", "210", 210],
    ["stands_rpm_full", "120 in half a minute", 240],
    ["stands_rpm_full", "40 turns in 10 s", 240],
    ["motor_turns", "12.7", 12.7],
    ["motor_turns", "12.7 turns", 12.7],
    ["after_case", "45 °C", 45],
    ["after_case", "113 °F", 45],
    ["run_forwards", "yes", 1],
    ["run_forwards", "No", 0],
  ])("%s: %s", (name, typed, wanted) => {
    expect(typedAs(name, typed)).toBeCloseTo(wanted, 9);
  });
});

describe("a sheet", () => {
  test("comments, blank values, notes and their lack, in any order of columns", () => {
    const { filled, lines } = read(
      '# a\nnote,reading,value\n"a, b",rest_volts,25 V\n,run_amps,\n,run_forwards,no\n# b\n,motor_turns,12\n',
    );
    expect(lines).toEqual([]);
    expect(filled?.taken).toEqual([
      { reading: "rest_volts", value: 25 },
      { reading: "run_forwards", value: 0 },
      { reading: "motor_turns", value: 12 },
    ]);
    expect(read("reading,value,note\nrest_volts,25 V\n").filled?.taken).toHaveLength(1);
  });

  test("a reading left blank on one line may stand filled on another", () => {
    expect(read("reading,value\nrest_volts,\nrest_volts,25 V\n").filled?.taken).toEqual([
      { reading: "rest_volts", value: 25 },
    ]);
  });

  test("tells how likely causes were thought before", () => {
    const { filled, lines } = read("reading,value\nrest_volts,25 V\nprior.flat_battery,3\nprior.poor_grip,0.2\n");
    expect([lines, filled?.priors]).toEqual([[], { flat_battery: 3, poor_grip: 0.2 }]);
  });

  test("volts come back from any number of decimals", () => {
    const property = fc.property(
      fc.double({ min: 0.01, max: 100, noNaN: true }),
      fc.integer({ min: 2, max: 6 }),
      (V, n) => {
        expect(typedAs("rest_volts", `${V.toFixed(n)} V`)).toBeCloseTo(Number(V.toFixed(n)), 9);
      },
    );
    fc.assert(property, { numRuns: 50 });
  });
});

describe("every problem, with its line and column", () => {
  test.each<[string, string[]]>([
    ["", ["1: error: the file is empty; it begins with the header reading,value,note"]],
    [
      "reading|value\nrest_volts|25 V\n",
      ["1: error: the columns are not parted; put commas, semicolons or tabs between the cells"],
    ],
    [
      "reading,valeu,extra\nrest_volts,25 V,\n",
      [
        "1: error: valeu is not a column; did you mean value?",
        "1: error: extra is not a column; there are reading, value, note",
        "1: error: columns are missing: value; the header is reading,value,note",
      ],
    ],
    ["reading,value\nrest_volts,\n", ["1: error: value: no reading is filled in; write down what was read"]],
    ["reading,value\n", ["1: error: value: no reading is filled in; write down what was read"]],
    [
      "reading,value\nrest_vlots,25 V\n",
      ["2: error: reading: rest_vlots is not on this loco's sheet; did you mean rest_volts?"],
    ],
    [
      "reading,value\nrest_volts,25.3 N\n",
      ['2: error: value: rest_volts: "25.3 N" is a force where a voltage is wanted; write it like 25.3 V'],
    ],
    [
      "reading,value\nrun_speed,3 A\n",
      [
        '2: error: value: run_speed: "3 A" is a current where a speed is wanted; write it like 1.8 m/s, 4 mph or 10 m in 5.6 s',
      ],
    ],
    [
      "reading,value\nrun_speed,10 m in 0 s\n",
      [
        '2: error: value: run_speed: "0 s" is no time to run anywhere in; write it like 1.8 m/s, 4 mph or 10 m in 5.6 s',
      ],
    ],
    ["reading,value\nrest_volts,25 V\nrest_volts,24 V\n", ["3: error: reading: rest_volts stands on line 2 already"]],
    ["reading,value\nrun_forwards,perhaps\n", ['2: error: value: run_forwards: "perhaps" is neither yes nor no']],
    ["reading,value\nrun_forwards,1 V\n", ['2: error: value: run_forwards: "1 V" is neither yes nor no']],
    [
      "reading,value\nmotor_turns,twelve\n",
      ['2: error: value: motor_turns: "twelve" is not a number of turns; write it like 12.7'],
    ],
    [
      "reading,value\nrest_volts,25,3 V\n",
      ["2: error: this row has 3 cells under 2 columns; a comma too many or too few?"],
    ],
    [
      "reading,value,note\nmotor_turns,12,7\nrest_volts,25,3 V\n",
      [
        '2: error: value: motor_turns: "12,7" has a comma in it; write it with a point',
        '3: error: value: rest_volts: "25,3 V" has a comma in it; write it with a point',
      ],
    ],
    [
      "reading,note,value\nmotor_turns,12\n",
      ["2: error: this row has 2 cells under 3 columns; a comma too many or too few?"],
    ],
    [
      "reading,value\nrest_volts,25 V\nprior.flat_batery,3\nprior.poor_grip,-1\nprior.bad_joint,often\n",
      [
        "3: error: reading: prior.flat_batery: there is no such cause; did you mean prior.flat_battery?",
        '4: error: value: prior.poor_grip: "-1" is not a number above 0; it tells how much likelier than usual, such as 3 or 0.2',
        '5: error: value: prior.bad_joint: "often" is not a number above 0; it tells how much likelier than usual, such as 3 or 0.2',
      ],
    ],
  ])("%j", (text, wanted) => {
    expect(errors(text)).toEqual(wanted);
  });

  test.each(["stands_run_down,-3 s", "stop_loco,-2 m", "wheel_diameter,-1 mm", "roll_loco,-5 N", "run_speed,-1 mph"])(
    "%s cannot be",
    (row) => {
      expect(errors(`reading,value\n${row}\n`)).toEqual([expect.stringContaining("is below nothing")]);
    },
  );

  test("nothing it holds reaches a terminal as a command", () => {
    expect(errors("reading,value\n\u001b[31mred,25 V\n").join()).not.toContain("\u001b");
  });

  test("any text is read or told about, and never throws", () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (name, value) => {
        const { filled, lines } = read(`reading,value\nrest_volts,1 V\n${name},${value}\n`);
        expect(filled !== undefined || lines.length > 0).toBe(true);
      }),
    );
  });
});
