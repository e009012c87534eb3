import { appendFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { SWEPT_FIGURES, SWEPT_LACKS, SWEPT_TROUBLES } from "@rideon/sim-core";
import { describe, expect, test } from "vitest";
import { partOf } from "../../packages/sim-cli/src/questions/sweep/asked.js";
import { axisOf, mustDiffer } from "../../packages/sim-cli/src/questions/sweep/axes.js";
import { find, nothingFound } from "../../packages/sim-cli/src/questions/sweep/found.js";
import { cellsOf, countOf } from "../../packages/sim-cli/src/questions/sweep/grid.js";
import { LACKS, SHORT } from "../../packages/sim-cli/src/questions/sweep/lacks.js";
import { sweepFigure } from "../../packages/sim-cli/src/questions/sweep/map.svg.js";
import { columnsIn } from "../../packages/sim-cli/src/questions/sweep/rows.js";
import { scaleOf } from "../../packages/sim-cli/src/questions/sweep/scale.js";
import { wantedOf } from "../../packages/sim-cli/src/questions/sweep/wanted.js";
import { sweepInWords } from "../../packages/sim-cli/src/questions/sweep/words.js";
import { type Head, openWritten } from "../../packages/sim-cli/src/questions/sweep/written.js";
import { readCases } from "../../packages/sim-cli/src/read/cases.js";
import { differencesIn } from "../../packages/sim-cli/src/read/yaml/differences.js";
import { emptyFolder } from "./command.js";

const valuesOf = (text: string) => axisOf(text).rows.map(([value]) => value);

describe("what is varied", () => {
  test.each([
    ["passengers=0..3", ["0", "1", "2", "3"]],
    ["passengers=3..0", ["3", "2", "1", "0"]],
    ["loco.mass=120..150 kg by 10", ["120 kg", "130 kg", "140 kg", "150 kg"]],
    ["loco.resistance.rolling=0.008..0.012 by 0.002", ["0.008", "0.01", "0.012"]],
    ["loco.gears.1.teeth=[11,44],[11,48]", ["[11,44]", "[11,48]"]],
    ["loco.mass=120 kg..160 kg by 20", ["120 kg", "140 kg", "160 kg"]],
    ["loco.mass=120kg..160kg by 20 kg", ["120 kg", "140 kg", "160 kg"]],
    // 0.45359237 kg in a lb.
    ["loco.mass=120..150 kg by 20 lb", ["120 kg", "129.0718474 kg", "138.1436948 kg", "147.2155422 kg"]],
    ["loco.mass=11 st 7 lb..12 st by 0.25", ["11.5 st", "11.75 st", "12 st"]],
    ["charge=10%..50% by 20%", ["10 %", "30 %", "50 %"]],
    ["charge=0.1..0.5by0.1", ["0.1", "0.2", "0.3", "0.4", "0.5"]],
    ["air_temperature=0 °C..10 °C by 9 °F", ["0 °C", "5 °C", "10 °C"]],
    ["rail=dry, wet", ["dry", "wet"]],
    ["laps=1,5..7,20", ["1", "5", "6", "7", "20"]],
    ['name="a, b",c', ['"a, b"', "c"]],
    ["charge=80 %,1", ["80 %", "1"]],
  ])("%s", (text, values) => {
    expect(valuesOf(text)).toEqual(values);
  });
  test.each([
    ["passengers", "a key, = and its values are wanted"],
    ["passengers=", "a key, = and its values are wanted"],
    ["loco.mass=1..2.5 kg", "by what?"],
    ["loco.mass=1..2.5 kg", "Say it: 1..2.5 kg by 0.25"],
    ["charge=0.01..1", "Say it: 0.01..1 by 0.1"],
    ["charge=0.1..0.5", "Say it: 0.1..0.5 by 0.1"],
    ["loco.mass=120..180 kg by 20 V", "20 V is not in the unit of the last value, kg; write 120..180 kg by 10"],
    ["loco.mass=120 V..180 kg by 20", "120 V is not in the unit of the last value, kg; write 120..180 kg by 10"],
    [
      "loco.mass=120 kg..180 by 20",
      "120 kg is not in the unit of the last value, which has none; write 120..180 kg by 10",
    ],
    ["charge=0.1..0.5 by a lot", "a lot is no step; write 0.1..0.5 by 0.1"],
    ["passengers=1,,2", "no value between two commas"],
    ["passengers=1,1", "stands there twice"],
    ["passengers=0..5 by 0", "never comes from 0 to 5"],
    ["passengers=0..9999999", "more than 1000000 values"],
  ])("%s will not do", (text, message) => {
    expect(() => axisOf(text)).toThrow(message);
  });
  test("no key is varied twice, by whatever name", () => {
    expect(() => mustDiffer([axisOf("rail=dry"), axisOf("track.rail=wet")])).toThrow("track.rail is varied twice");
  });
  test("every combination, the last key going through its values first", () => {
    const sweep = { axes: [axisOf("passengers=0..1"), axisOf("rail=dry,wet"), axisOf("laps=1,2")] };
    expect(countOf(sweep)).toBe(8);
    // By hand.
    expect(Array.from({ length: 8 }, (_, i) => cellsOf(sweep, i).join(" "))).toEqual([
      "0 dry 1",
      "0 dry 2",
      "0 wet 1",
      "0 wet 2",
      "1 dry 1",
      "1 dry 2",
      "1 wet 1",
      "1 wet 2",
    ]);
  });
  test("shares are all of it, once, whatever their number", () => {
    for (const [count, of] of [
      [10, 3],
      [2, 5],
      [1000, 7],
    ] as const) {
      const parts = Array.from({ length: of }, (_, i) => partOf(count, { k: i + 1, of }));
      expect(parts[0]!.from).toBe(0);
      expect(parts.at(-1)!.to).toBe(count);
      for (const [i, part] of parts.entries()) if (i > 0) expect(part.from).toBe(parts[i - 1]!.to);
    }
  });
});

describe("a file of cases", () => {
  const read = (text: string) => {
    const problems: Parameters<typeof readCases>[2] = [];
    return {
      cases: readCases("c.csv", text, problems),
      told: problems.map(({ line, message }) => `${line}: ${message}`),
    };
  };
  test("is a row of keys, and a row a case", () => {
    const { cases } = read('# mine\npassengers,loco.gears.1.teeth\n2,"[11, 44]"\n3,\n');
    expect(cases).toEqual({
      columns: ["passengers", "loco.gears.1.teeth"],
      rows: [
        ["2", "[11, 44]"],
        ["3", ""],
      ],
    });
  });
  test("may have semicolons or tabs between its cells, as spreadsheets have", () => {
    const wanted = { columns: ["passengers", "loco.gears.1.teeth"], rows: [["2", "[11, 44]"]] };
    expect(read("\ufeffpassengers;loco.gears.1.teeth\r\n2;[11, 44]\r\n").cases).toEqual(wanted);
    expect(read("passengers\tloco.gears.1.teeth\n2\t[11, 44]\n").cases).toEqual(wanted);
  });
  test.each([";", "\t"])("with %j between its cells may have commas before its decimals", (mark) => {
    const file = (rows: string[][]) => `${rows.map((row) => row.join(mark)).join("\n")}\n`;
    const rows = [
      ["loco.mass", "speed", "loco.gears.1.teeth", "name", "loco"],
      ["165,5 kg", "3,5 mph", "[11,44]", "a, b", "loco2,5.yaml"],
      ["1.250,5 kg", "4 mph", "[11, 48]", "1,250", "loco.yaml"],
      ["1,250 kg", "", "", "", ""],
    ];
    // By hand; the first row shows that a comma begins the decimals.
    const wanted = [
      ["165.5 kg", "3.5 mph", ...rows[1]!.slice(2)],
      ["1250.5 kg", "4 mph", ...rows[2]!.slice(2)],
      ["1.250 kg", "", "", "", ""],
    ];
    expect(read(file(rows)).cases!.rows).toEqual(wanted);
    expect(read(`sep=${mark}\n${file(rows)}`.replaceAll("\n", "\r\n")).cases!.rows).toEqual(wanted);
  });
  test.each([
    ["loco.mass;passengers\n165 kg;2\n1,250 kg;3\n", '3: loco.mass: "1,250" could be 1.25 or 1250'],
    ["loco.mass;passengers\n1.250 kg;2\n", '2: loco.mass: "1.250" could be 1.25 or 1250'],
    [
      "loco.mass;speed\n165.5 kg;4\n165 kg;3,5 mph\n",
      '3: speed: "3,5" has a comma before its decimals, and line 2 a point',
    ],
    ['loco.mass,passengers\n"1,250 kg",2\n', '2: loco.mass: "1,250" could be 1.25 or 1250'],
    ["sep=;\nloco.mass;speed\n1,250 kg;4\n", '3: loco.mass: "1,250" could be'],
  ])("%j is asked about", (text, message) => {
    expect(read(text).told.join("\n")).toContain(message);
  });
  test.each([
    ["passengers\n", "1: a row of keys and a row for each case are wanted, such as passengers,loco.mass"],
    ["passengers,passengers\n1,2\n", "1: passengers heads two columns"],
    ["passengers,\n1,2\n", "1: column 2 has no name: a key is wanted, such as passengers or loco.mass"],
    ["a,b\n1,2,3\n", "2: this row has 3 cells under 2 columns"],
    ['a\n"1\n2"\n', "a cell goes on over lines"],
    ['a,b\n"1,2\n', "quotation marks do not match"],
  ])("%j is told with its line", (text, message) => {
    expect(read(text).told.join("\n")).toContain(message);
  });
});

const HEAD: Head = ["# rideon 0 sweep abc: 4 cases", "case,passengers,restarts,outcome,falls_short,warnings,why"];
const ROWS = [1, 2, 3, 4].map((i) => `${i},${i},yes,completed,,0,\n`);

describe("a file that was interrupted", () => {
  const whole = [...HEAD.map((line) => `${line}\n`), ...ROWS].join("");

  test("goes on after its last whole row, wherever it was cut off", () => {
    const folder = emptyFolder();
    for (let cut = 0; cut <= whole.length; cut++) {
      const path = join(folder, `${cut}.csv`);
      writeFileSync(path, whole.slice(0, cut));
      const seen: string[] = [];
      const written = openWritten(path, HEAD, 0, (line) => seen.push(line));
      expect(seen.length).toBe(written.done);
      for (const row of ROWS.slice(written.done)) written.add(row);
      written.close();
      expect(readFileSync(path, "utf8")).toBe(whole);
    }
  });
  test("of another sweep, with other columns or with a row missing is left as it is", () => {
    const path = join(emptyFolder(), "sweep.csv");
    for (const [text, message] of [
      [whole.replace("abc", "abd"), "is of another sweep, or of files that have changed"],
      [whole.replace(",passengers", ",laps"), "is a sweep with other columns"],
      [whole.replace("2,2,yes,completed,,0,\n", ""), "row 2 is wanted after row 1"],
    ] as const) {
      writeFileSync(path, text);
      expect(() => openWritten(path, HEAD, 0, () => {})).toThrow(message);
      expect(readFileSync(path, "utf8")).toBe(text);
    }
  });
  test("that is none of a sweep is called that, and left as it is, one line without an end too", () => {
    const path = join(emptyFolder(), "sweep.csv");
    for (const [text, message] of [
      ["date,what\n3 May,swept the shed\n", "is no sweep's file, and is left as it is"],
      ["swept the shed", "is no sweep's file, and is left as it is"],
      [`${HEAD[0]} and more`, "is of another sweep"],
    ] as const) {
      writeFileSync(path, text);
      expect(() => openWritten(path, HEAD, 0, () => {})).toThrow(message);
      expect(readFileSync(path, "utf8")).toBe(text);
    }
  });
  test("into which something else writes is written no more", () => {
    const path = join(emptyFolder(), "sweep.csv");
    const written = openWritten(path, HEAD, 0, () => {});
    written.add(ROWS[0]!);
    appendFileSync(path, "x");
    expect(() => written.add(ROWS[1]!)).toThrow("something else writes into it");
    written.close();
  });
});

/** What is found in lines by the figure that is best and by what is needed. */
const finding =
  (columns: ReturnType<typeof columnsIn>, lines: readonly string[]) =>
  (best: string | undefined, ...needs: string[]) => {
    const found = nothingFound(columns, wantedOf(columns, best, needs));
    for (const line of lines) find(found, line);
    return found;
  };

describe("the best", () => {
  const columns = columnsIn("case,passengers,rail,laps_to_reserve,restarts,outcome,falls_short,warnings,why");
  const lines = [
    "1,0,dry,50,yes,completed,,0,",
    "2,0,wet,60,no,completed,restarts,0,",
    "3,1,dry,40,yes,completed,,0,",
    "4,1,wet,90,yes,stalled,,0,",
    '5,2,dry,,,invalid,,,"passengers: 2, wrong"',
    "6,2,wet,45,yes,completed,,0,",
  ];
  const foundWith = finding(columns, lines);
  test("are those that came to their end, the ones that fall short after all that do not", () => {
    expect(foundWith(undefined).best.map(({ number }) => number)).toEqual([1, 6, 3, 2]);
    expect(foundWith("laps_to_reserve", "restarts=yes", "laps_to_reserve<50").best.map(({ number }) => number)).toEqual(
      [6, 3],
    );
    expect(foundWith(undefined, "rail=wet").best.map(({ number }) => number)).toEqual([6, 2]);
  });
  test("are told with what they fall short of, and what came to nothing with why", () => {
    const text = sweepInWords(foundWith(undefined), 6).join(" ").replaceAll(/\s+/g, " ");
    expect(text).toMatch(
      /^6 cases: 4 completed, 1 stalled and 1 cannot be used\. The best is case 1: laps_to_reserve 50\./,
    );
    expect(text).toContain("does not start again on the steepest bit");
    expect(text).toContain("5 2 dry cannot be used: passengers: 2, wrong");
    expect(text).toContain("stop in time was not asked");
    const worst = sweepInWords(foundWith("laps_to_reserve", "restarts=no"), 6).join(" ").replaceAll(/\s+/g, " ");
    expect(worst).toContain(
      "No case that has restarts=no is without a lack. The least bad by laps_to_reserve is case 2, with 60: it does not start again on the steepest bit.",
    );
  });
  test("of a few cases are told side by side, every figure of each", () => {
    const few = nothingFound(columns, wantedOf(columns, undefined, []));
    for (const line of lines.slice(0, 2)) find(few, line);
    const text = sweepInWords(few, 2).join("\n");
    expect(text).toMatch(
      /laps_to_reserve +50 +60\n +restarts +yes +no\n +ended +completed +completed\n +falls short +– +does not start again on the steepest bit/,
    );
    expect(text).not.toContain("The best by");
  });
  test("over two keys are a map, in which nothing that came to no end has a colour", () => {
    const { body } = sweepFigure(foundWith(undefined))!;
    const cell = (number: number) => new RegExp(`<rect [^>]*fill="(#\\w+)"[^>]*data-cell="${number}"`).exec(body)![1]!;
    expect([cell(4), cell(5)]).toEqual(["#a6a6a6", "#a6a6a6"]);
    expect(new Set([1, 2, 3, 6].map(cell)).size).toBe(4);
  });
  test.each([
    ["stops_m", [], "that is a figure of brakes, which is not asked here"],
    ["laps_to_reserv", [], "did you mean laps_to_reserve?"],
    [undefined, ["restarts<1"], "restarts holds or does not"],
    [undefined, ["laps_to_reserve=many"], "many is not a number"],
    [undefined, ["laps_to_reserve"], "a figure, a sign and a value are wanted"],
  ])("%s %j will not do", (best, needs, message) => {
    expect(() => wantedOf(columns, best, needs as string[])).toThrow(message);
  });
});

describe("figures of several kinds", () => {
  const columns = columnsIn(
    "case,loco,chosen_teeth,chosen_restart_gradient_percent,chosen_gears_will_do,own_restart_gradient_percent,own_gears_will_do,outcome,falls_short,warnings,why",
  );
  const lines = [
    "1,a,9/57,3,yes,2,no,completed,own_gears_will_do,3,",
    "2,b,11/57,2,yes,2.5,yes,completed,,1,",
    "3,c,,,no,1,yes,completed,chosen_gears_will_do,0,",
  ];
  const foundWith = finding(columns, lines);
  const numbers = (best: string | undefined, ...needs: string[]) =>
    foundWith(best, ...needs).best.map((row) => row.number);

  test("gears that will not do are no lack of those in their place, nor the other way about", () => {
    expect(numbers(undefined)).toEqual([1, 2]);
    expect(numbers("own_restart_gradient_percent")).toEqual([2, 3, 1]);
    expect(numbers("warnings")).toEqual([2, 3, 1]);
    const text = sweepInWords(foundWith("own_restart_gradient_percent", "own_gears_will_do=no"), 3).join(" ");
    expect(text.replaceAll(/\s+/g, " ")).toContain(
      "is without a lack. The least bad by own_restart_gradient_percent is case",
    );
  });
  test("what is told in words is asked for as it stands, and ranks nothing", () => {
    expect(numbers(undefined, "chosen_teeth=11/57")).toEqual([2]);
    expect(numbers("warnings", "warnings<3")).toEqual([2, 3]);
    expect(() => wantedOf(columns, "chosen_teeth", [])).toThrow("neither more nor less of it is better");
    expect(() => wantedOf(columns, undefined, ["chosen_teeth<3"])).toThrow("chosen_teeth is told in words");
  });
  test("have words for all that a case can fall short of, which go after it", () => {
    for (const { name, wanted } of SWEPT_FIGURES)
      expect([name, SHORT[name] !== undefined]).toEqual([name, wanted === true]);
    for (const lack of [...SWEPT_LACKS, ...SWEPT_TROUBLES]) expect(LACKS[lack](3)).toMatch(/^\w+/);
  });
});

describe("an axis of values", () => {
  test.each([
    // 14 lb in a stone, 0.45359237 kg in a lb.
    ["loco.mass", ["12 st", "165 kg", "500 lb"], "st", [12, 165 / 0.45359237 / 14, 500 / 14]],
    ["loco.mass", ["11 st 7 lb", "12 st"], "st", [11.5, 12]],
    ["loco.mass", ["120 kg", "140 kg"], "kg", [120, 140]],
    ["loco.mass", ["165 kg", "2000 N", "180 kg"], "kg", [165, Number.NaN, 180]],
    ["charge", ["80 %", "1", "0.5"], "%", [80, 100, 50]],
    ["air_temperature", ["0 °C", "212 °F"], "°C", [0, 100]],
    ["cars.Coach.mass", ["64 kg", "128 kg"], "kg", [64, 128]],
    ["passengers", ["0", "12"], "", [0, 12]],
    ["loco.resistance.rolling", ["1 in 100", "0.02"], "", [0.01, 0.02]],
  ] as const)("of %s, %j, has one unit", (column, values, unit, at) => {
    const scale = scaleOf(column, values)!;
    expect(scale.unit).toBe(unit);
    expect(scale.at.map((each) => Number(each.toPrecision(9)))).toEqual(at.map((each) => Number(each.toPrecision(9))));
  });
  test.each([
    ["rail", ["dry", "wet"]],
    ["loco.gears.1.teeth", ["[11,44]", "[11,48]"]],
    ["loco", ["1.yaml", "2.yaml"]],
    ["loco.mass", ["165 kg", "165 kg ± 5 kg"]],
  ])("of %s, %j, is none to draw a line along", (column, values) => {
    expect(scaleOf(column, values)).toBeUndefined();
  });
  test("draws a line whose dots stand where their values do", () => {
    const columns = columnsIn("case,loco.mass,laps_to_reserve,outcome,falls_short,warnings,why");
    const found = nothingFound(columns, wantedOf(columns, undefined, []));
    for (const line of ["1,12 st,50,completed,,0,", "2,165 kg,40,completed,,0,", "3,500 lb,30,completed,,0,"])
      find(found, line);
    find(found, "4,2000 N,,invalid,,,a force");
    const x = [...sweepFigure(found)!.body.matchAll(/<circle cx="([\d.]+)"/g)].map(([, at]) => Number(at));
    expect(x).toHaveLength(3);
    const [first = 0, second = 0, third = 0] = x;
    expect((second - first) / (third - first)).toBeCloseTo((165 / 0.45359237 - 168) / (500 - 168), 2);
  });
});

test("two files of keys are told apart as they are typed", () => {
  const own = "mass: 150 kg\ngears:\n  - teeth: [11, 44]\n    stages: 1\nname: A\n";
  const other = "mass: 150 kg  # the same\ngears:\n  - teeth: [11, 48]\n    stages: 1\nmotor: { power: 500 W }\n";
  expect(differencesIn(own, other)).toEqual([
    { path: "gears.1.teeth", own: "[11, 44]", other: "[11, 48]" },
    { path: "name", own: "A", other: "" },
    { path: "motor.power", own: "", other: "500 W" },
  ]);
});
