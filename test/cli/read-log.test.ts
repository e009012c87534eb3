import { readLog } from "@rideon/sim-cli/read";
import { parse } from "csv-parse/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { eachRecord } from "../../packages/sim-cli/src/read/csv/split.js";
import { mappedIn } from "../../packages/sim-cli/src/read/log/headings.js";
import { mustBeLog } from "../../packages/sim-core/src/field/compare/log.js";

const read = (text: string, ...columns: string[]) => {
  const problems: { line?: number; message: string }[] = [];
  const mapped = columns.map(mappedIn).filter((each) => typeof each !== "string");
  const log = readLog("log.csv", text, mapped as never, problems as never);
  return { log, problems: problems.map(({ line, message }) => `${line}: ${message}`) };
};

test("a duty in per cent under a heading of shares is told the heading that it wants", () => {
  const log = { time_s: [0, 1, 2], distance: [0, 1, 2], duty: [0.5, 80, 1.2] };
  expect(() => mustBeLog(log)).toThrow("80 is no share of one; per cent stand under the heading duty_percent");
  expect(() => mustBeLog(log)).toThrow("1.2 is no share of one; is the unit that of the heading?");
});

describe("columns", () => {
  test("are told by their headings with units, however these are written", () => {
    const { log, problems } = read(
      "time_ms,Speed (km/h),Battery current [A],battery_voltage_mV,Temperature (°F),duty_percent,note,rssi\n0,3.6,10,25000,68,50,start,-61\n1000,7.2,11,24900,77,60,,-60\n2000,7.2,11,24900,,60,,-60\n",
    );
    expect(problems).toEqual([]);
    expect([...(log!.columns.time_s as Float64Array)]).toEqual([0, 1, 2]);
    expect([...(log!.columns.speed as Float64Array)]).toEqual([1, 2, 2].map((each) => expect.closeTo(each, 10)));
    expect(log!.columns.battery_voltage![0]).toBeCloseTo(25, 10);
    expect(log!.columns.temperature![0]).toBeCloseTo(20, 10);
    expect(log!.columns.temperature![2]).toBeNaN();
    expect(log!.columns.duty![1]).toBeCloseTo(0.6, 10);
    expect(log!.leftOut).toEqual(["note", "rssi"]);
  });
  test("with names of their own are mapped", () => {
    const { log, problems } = read(
      "time_s,Batt A,v\n0,10,3\n1,11,3\n2,12,3\n",
      "Batt A=battery_current A",
      "v=speed km/h",
    );
    expect(problems).toEqual([]);
    expect(log!.columns.battery_current![2]).toBe(12);
    expect(log!.columns.speed![0]).toBeCloseTo(3 / 3.6, 10);
    expect(mappedIn("Batt A")).toContain('such as "Batt A=battery_current A"');
    expect(mappedIn("Batt A=batery_current A")).toContain("did you mean battery_current_A?");
    expect(read("time_s,x\n0,1\n1,1\n", "y=speed m/s").problems).toEqual(
      [
        "1: there is nothing beside the time: speed_mph or distance_m, and battery_current_A or another",
        '1: --column "y=…": there is no such heading; there are time_s, x',
      ].sort((a, b) => problemsOrder(a, b)),
    );
  });
  test("that are meant for one of ours are told, and not left out", () => {
    const told = (name: string) => read(`time_s,speed_mph,${name}\n0,3,1\n1,3,1\n`).problems[0];
    expect(told("current_A")).toContain("did you mean motor_current_A or battery_current_A?");
    expect(told("battery_curent_A")).toContain("did you mean battery_current_A?");
    expect(told("battery_current")).toContain("battery_current with its unit: battery_current_A, battery_current_mA");
    expect(told("voltage")).toContain("did you mean battery_voltage_V?");
  });
  test("that all have names of their own are told by an option, as the error says", () => {
    const own = "Zeit,Tempo,Batt A\n0,3,4\n1,3,4\n2,3,4\n";
    expect(read(own).problems[0]).toContain('--column "Zeit=time_s"');
    expect(read(own, "Zeit=time_s", "Tempo=speed_mph", "Batt A=battery_current_A").problems).toEqual([]);
  });
  test("of one quantity stand once, and time is one of them", () => {
    expect(read("time_s,speed_mph,speed_kmh\n0,3,4\n").problems[0]).toContain(
      "speed_kmh cannot stand beside speed_mph",
    );
    expect(read("speed_mph,battery_current_A\n3,4\n").problems[0]).toContain("a column of time is missing");
  });
});

const problemsOrder = (a: string, b: string) =>
  Number(a.includes("nothing beside")) - Number(b.includes("nothing beside"));

describe("rows", () => {
  test("clocks are read by the hour and by the day, over midnight too", () => {
    expect([
      ...(read("time,speed_mph\n23:59:58,3\n23:59:59.5,3\n00:00:01,3\n").log!.columns.time_s as Float64Array),
    ]).toEqual([86398, 86399.5, 86401]);
    const days = read("time,speed_mph\n2027-05-04T10:00:00Z,3\n2027-05-04T10:00:02.5Z,3\n").log!.columns.time_s;
    expect(days[1]! - days[0]!).toBe(2.5);
    expect(read("time,speed_mph\nten,3\n").problems[0]).toContain('"ten" is no time; it is such as 10:32:05');
  });
  test("by the clock under seconds are told once, with the heading that takes them", () => {
    const clocked = "time_s,speed_mph\n23:59:58,3\n23:59:59,3\n00:00:01,3\n";
    expect(read(clocked).problems).toEqual([
      '2: time_s: "23:59:58" is a time by the clock; the column is then called time, without a unit, or --column "time_s=time" tells so',
    ]);
    expect([...(read(clocked, "time_s=time").log!.columns.time_s as Float64Array)]).toEqual([86398, 86399, 86401]);
  });
  test("out of order, or with words in them, are told with their line", () => {
    expect(read("time_s,speed_mph\n0,3\n2,3\n1,3\n3,fast\n").problems).toEqual([
      "4: time_s: 1 is before the reading above it; rows stand in order of time",
      '5: speed_mph: "fast" is not a number; the unit stands in the header alone',
    ]);
  });
  test("at the same time as the one before are left out, and counted", () => {
    const { log } = read("time_s,speed_mph\n0,3\n0,3\n1,3\n1,4\n");
    expect(log!.repeated).toBe(2);
    expect([...log!.lines]).toEqual([2, 4]);
  });
  test("mark laps by a press, or by the number of the lap", () => {
    expect(read("time_s,speed_mph,lap\n0,3,x\n1,3,\n2,3,0\n3,3,x\n").log!.columns.laps).toEqual([0, 3]);
    expect(read("time_s,speed_mph,lap\n0,3,1\n1,3,1\n2,3,2\n3,3,2\n4,3,3\n5,3,3\n").log!.columns.laps).toEqual([2, 4]);
  });
  test("of spreadsheets with semicolons and commas are numbers", () => {
    const { log, problems } = read("time_s;speed_kmh\n0,5;3,6\n1,5;7,2\n");
    expect(problems).toEqual([]);
    expect(log!.columns.time_s[0]).toBe(0.5);
    expect(log!.columns.speed![1]).toBeCloseTo(2, 10);
  });
});

// Reference: the library that reads what has quotation marks in it.
test("a text without quotation marks is split as the library splits it", () => {
  const cell = fc.stringMatching(/^[ a-z0-9.#;-]{0,4}$/);
  const line = fc.oneof(
    fc.array(cell, { minLength: 1, maxLength: 4 }).map((cells) => cells.join(",")),
    fc.constantFrom("", "  ", "# note, with a comma", " # set in"),
  );
  fc.assert(
    fc.property(fc.array(line, { maxLength: 8 }), fc.boolean(), (lines, ends) => {
      const text = lines.join("\n") + (ends ? "\n" : "");
      const own: string[][] = [];
      eachRecord(text, ",", (_, cells) => void own.push(cells));
      const options = {
        trim: true,
        comment: "#",
        comment_no_infix: true,
        relax_column_count: true,
        skip_empty_lines: true,
      };
      const library = (parse(text, options) as string[][]).filter((cells) => cells.some((each) => each !== ""));
      expect(own.filter((cells) => cells.some((each) => each !== ""))).toEqual(library);
    }),
    { numRuns: 500 },
  );
});
