import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { splitRows } from "../../packages/sim-cli/src/read/csv/csv.js";
import { type Between, eachRecord } from "../../packages/sim-cli/src/read/csv/split.js";
import { read, readWell } from "../support/folder.js";

const errors = (text: string) => {
  const found = read({ "track.csv": text });
  return Array.isArray(found) ? found.map((line) => line.replace(/^track\.csv:/, "")) : [];
};
const track = (text: string) => readWell({ "track.csv": text }).track;

const ENGLISH = "distance_m,height_m,radius_m,place\n0,0.0,,Station\n87.5,1.25,20.5,\n1250,0.0,,\n";
const wanted = track(ENGLISH);

describe("as spreadsheets save a profile", () => {
  test.each([
    [
      "semicolons and decimal commas",
      "distance_m;height_m;radius_m;place\n0;0,0;;Station\n87,5;1,25;20,5;\n1250;0,0;;\n",
    ],
    [
      "tabs and decimal commas",
      "distance_m\theight_m\tradius_m\tplace\n0\t0,0\t\tStation\n87,5\t1,25\t20,5\t\n1250\t0,0\t\t\n",
    ],
    ["semicolons and points", ENGLISH.replaceAll(",", ";")],
    ["a byte order mark and Windows line ends", `\ufeff${ENGLISH.replaceAll("\n", "\r\n")}`],
    ["every cell in quotes", `"${ENGLISH.trimEnd().replaceAll(",", '","').replaceAll("\n", '"\n"')}"\n`],
    ["what stands between cells told in the first line", `sep=;\n${ENGLISH.replaceAll(",", ";")}`],
    ["columns and rows of blanks at the end", `${ENGLISH.replaceAll("\n", ",,,\n")},,,,,,\n,,,,,,\n`],
    ["thousands parted", "distance_m;height_m;radius_m;place\n0;0,0;;Station\n87,5;1,25;20,5;\n1.250,0;0,0;;\n"],
    ["thousands parted by commas", ENGLISH.replace("1250", '"1,250.0"')],
    [
      "three decimals all along",
      "distance_m;height_m;radius_m;place\n0,000;0,000;;Station\n87,500;1,250;20,500;\n1250,000;0,000;;\n",
    ],
  ])("%s", (_, text) => {
    expect(track(text)).toEqual(wanted);
  });

  test("a name may have a comma in it where semicolons stand between cells", () => {
    expect(track("distance_m;height_m;place\n0;0;Halt 1,250\n10;0,5;\n20;0;\n").place[0]).toBe("Halt 1,250");
  });
});

describe("a number that can be read in two ways is asked about", () => {
  test.each([
    [
      "nothing else shows",
      "distance_m;height_m\n0;0\n100;1,250\n200;0\n",
      '3: error: height_m: "1,250" could be 1.25 or 1250; write 1,2500 or 1250',
    ],
    [
      "with a point",
      "distance_m\theight_m\n0\t0\n1.000\t1\n2000\t0\n",
      '3: error: distance_m: "1.000" could be 1 or 1000; write 1.0000 or 1000',
    ],
    [
      "against the others' comma",
      "distance_m;height_m\n0;0,5\n1.000;1\n2000;0,5\n",
      '3: error: distance_m: "1.000" could be 1 or 1000; write 1,0000 or 1000',
    ],
    [
      "in quotes between commas",
      'distance_m,height_m\n0,0\n100,"1,250"\n200,0\n',
      '3: error: height_m: "1,250" could be 1.25 or 1250; write 1.2500 or 1250',
    ],
    [
      "both marks in one file",
      "distance_m;height_m\n0;0,5\n10.5;1\n20;0\n",
      '3: error: distance_m: "10.5" has a point before its decimals, and line 2 a comma; write both alike',
    ],
  ])("%s", (_, text, error) => {
    expect(errors(text)).toEqual([error]);
  });

  test("a cell that is no number in either way is told as one", () => {
    expect(errors("distance_m;height_m\n0;0,5\n1.0.0;1\n2000;0,5\n")).toEqual([
      '3: error: distance_m: "1.0.0" is not a number; the unit stands in the header alone',
    ]);
  });
});

describe("long files that are wrong all along", () => {
  test("the first twenty problems are told, and how many there are", () => {
    const found = errors(`distance_m,height_m\n${"x,y\n".repeat(3000)}`);
    expect(found).toHaveLength(21);
    expect(found[0]).toMatch(/6,000 problems, of which the first 20 are told$/);
    expect(found.slice(1).map((line) => Number(line.split(":")[0]))).toEqual(
      Array.from({ length: 20 }, (_, i) => 2 + Math.floor(i / 2)),
    );
  });

  test("a header of a million cells is one problem", () => {
    expect(errors(`${"x,".repeat(1e6)}x`)).toHaveLength(1);
  });
});

describe("other sheets", () => {
  test("a motor's curve", () => {
    const text = "torque_Nm;speed_rpm;current_A\n0,5;2800;9\n1;2700;16,5\n";
    const rows = splitRows(text, () => expect.unreachable());
    expect(rows?.map(({ cells }) => cells)).toEqual([
      ["torque_Nm", "speed_rpm", "current_A"],
      ["0.5", "2800", "9"],
      ["1", "2700", "16.5"],
    ]);
  });
});

/** Cells of every kind of trouble, without blanks at their ends, which nobody means. */
const cell = fc
  .array(fc.constantFrom("a", "1", ",", ";", "\t", "\n", '"', " ", "#", "é", "🚂"), { maxLength: 6 })
  .map((letters) => letters.join("").trim());
const record = fc.array(cell, { minLength: 1, maxLength: 5 });

describe("splitting", () => {
  const split = (text: string, between: Between) => {
    const records: string[][] = [];
    const torn = eachRecord(text, between, (_, cells) => void records.push(cells));
    return torn === undefined ? records : torn;
  };
  const quote = (text: string) => `"${text.replaceAll('"', '""')}"`;

  test("every cell in quotes comes back as it was", () => {
    fc.assert(
      fc.property(fc.array(record), fc.constantFrom<Between[]>(",", ";", "\t"), (records, between) => {
        const text = records.map((cells) => `${cells.map(quote).join(between)}\n`).join("");
        expect(split(text, between)).toEqual(records);
      }),
    );
  });

  test("plain cells come back without their blanks", () => {
    const plain = fc.array(fc.constantFrom("a", "1", " ", "é", '"', "#"), { minLength: 1, maxLength: 5 });
    const line = fc
      .array(plain, { minLength: 1, maxLength: 4 })
      .map((cells) => cells.map((each) => `x${each.join("")}`));
    fc.assert(
      fc.property(fc.array(line), fc.constantFrom<Between[]>(",", ";", "\t"), (records, between) => {
        const text = records.map((cells) => cells.join(between)).join("\n");
        expect(split(text, between)).toEqual(records.map((cells) => cells.map((each) => each.trim())));
      }),
    );
  });

  test("each record has the line it begins on", () => {
    const lines: number[] = [];
    eachRecord('# a\n\na,"b\nc",d\n"e"\n   # f\n\ng', ",", (line) => void lines.push(line));
    expect(lines).toEqual([3, 5, 8]);
  });
});
