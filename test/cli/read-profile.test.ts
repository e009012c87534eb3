import { describe, expect, test } from "vitest";
import { read, readWell } from "../support/folder.js";

const track = (text: string) => readWell({ "track.csv": text }).track;
const errors = (text: string) => {
  const found = read({ "track.csv": text });
  return Array.isArray(found) ? found.map((line) => line.replace(/^track\.csv:/, "")) : [];
};

describe("columns", () => {
  test("every one, with blanks", () => {
    const text = "distance_m,height_m,radius_m,limit_mph,place\n0,0,,,Station\n50,0.5,20,5,\n100,0,,,\n";
    expect(track(text)).toEqual({
      distance_m: [0, 50, 100],
      height_m: [0, 0.5, 0],
      curvature_radpm: [0, 1 / 20, 0],
      limit_mps: [Number.POSITIVE_INFINITY, 5 * 0.44704, Number.POSITIVE_INFINITY],
      place: ["Station", "", ""],
    });
  });
  // Inch, foot, yard and mile: international yard and pound agreement, 1959.
  test.each([
    ["distance_ft,height_in", { distance_m: [0, 3.048], height_m: [0, 0.0254 * 4] }],
    ["distance_yd,height_ft", { distance_m: [0, 9.144], height_m: [0, 0.3048 * 4] }],
    ["distance_m,height_mm", { distance_m: [0, 10], height_m: [0, 0.004] }],
    ["distance_m,gradient_percent", { distance_m: [0, 10], sine: [0, 0.04] }],
    ["distance_m,gradient_percent,gradient_doubt_percent", { sine: [0, 0.04], sineDoubt: [0.03, 0] }],
    ["distance_m,gradient_1_in", { distance_m: [0, 10], sine: [0, 0.25] }],
  ])("%s", (header, wanted) => {
    const second = 10;
    const doubt = header.includes("doubt") ? ",3" : "";
    const first = header.includes("gradient_1_in") ? "0," : "0,0";
    const found = track(`${header}\n${first}${doubt}\n${second},4${doubt && ","}\n`) as unknown as Record<
      string,
      number[]
    >;
    for (const [name, values] of Object.entries(wanted)) {
      values.forEach((value, i) => void expect(found[name]?.[i]).toBeCloseTo(value, 12));
    }
  });
  test("what was wrong with its levelling, in whatever letters a spreadsheet leaves it", () => {
    const text = "distance_m,height_m,levelling\n0,0,Not accepted\n10,0,not closed\n20,0,by receiver\n30,0,\n";
    expect(track(text).levelling).toEqual(["not accepted", "not closed", "by receiver", ""]);
  });
  test("comments, blank lines, quotes and Windows line ends", () => {
    const text = '# a\r\n\r\ndistance_m,height_m,place\r\n  # b, c\r\n0,0,"Home, sweet"\r\n10,0,5" yard\r\n';
    expect(track(text).place).toEqual(["Home, sweet", '5" yard']);
  });
});

describe("every problem, with its line and column", () => {
  test.each<[string, string[]]>([
    ["", ["1: error: the file is empty; it begins with a header such as distance_m,height_m"]],
    ["distance_m,height_m\n", ["1: error: no post follows the header; a line has two or more"]],
    ["distance_m,height_m\n0,0\n", ["2: error: one post alone follows the header; a line has two or more"]],
    [
      "distance_m|height_m\n0|0\n10|0\n",
      ["1: error: the columns are not parted; put commas, semicolons or tabs between the cells"],
    ],
    [
      "distance_m,distance_m,height_m,height_ft,hieght_m,\n0,0,0,0,0,0\n1,1,1,1,1,1\n",
      [
        "1: error: distance_m stands twice in the header",
        "1: error: height_ft cannot stand beside height_m; keep one of them",
        "1: error: hieght_m is not a column; did you mean height_m?",
        "1: error: column 6 has no name in the header",
      ],
    ],
    [
      "distance_m,height_m,levelling\n0,0,accepted\n10,0,\n",
      [
        '2: error: levelling: "accepted" is none of not accepted, not closed, by receiver; it is blank where the levelling closed',
      ],
    ],
    ["height_m\n0\n0\n", ["1: error: a column of distances is missing: distance_m, distance_ft or distance_yd"]],
    [
      "distance_m\n0\n1\n",
      ["1: error: a column of heights or gradients is missing, such as height_m or gradient_percent"],
    ],
    [
      "distance_m,height_m\n0,0\n1,5,2\n2\n",
      [
        "3: error: this row has 3 cells under 2 columns; a comma too many or too few?",
        "4: error: this row has 1 cells under 2 columns; a comma too many or too few?",
      ],
    ],
    [
      "distance_m,height_m,gradient_doubt_percent\n0,0,-3\n10,0,2 m\n20,0,300\n",
      [
        '2: error: gradient_doubt_percent: "-3": a doubt is from 0 up to 100 %, without a sign',
        '3: error: gradient_doubt_percent: "2 m" is not a number; the unit stands in the header alone',
        '4: error: gradient_doubt_percent: "300": a doubt is from 0 up to 100 %, without a sign',
      ],
    ],
    [
      '# c\n\ndistance_m,height_m\n0,NaN\n10,"1,5"\n10,\n9,1 m\n',
      [
        '4: error: height_m: "NaN" is not a number; the unit stands in the header alone',
        '5: error: height_m: "1,5" has a comma in it; write it with a point, or without',
        "6: error: height_m: the cell is blank; a number is wanted",
        "6: error: distance_m: 10 is no further on than the post before",
        '7: error: height_m: "1 m" is not a number; the unit stands in the header alone',
        "7: error: distance_m: 9 is no further on than the post before",
      ],
    ],
    [
      "distance_m,gradient_1_in,radius_m,limit_mph\n0,0,-5,0\n10,,,\n",
      [
        '2: error: gradient_1_in: "0": a gradient of 1 in 80 is written 80 or -80, level is left blank',
        '2: error: radius_m: "-5": a radius (either hand) is more than 0',
        '2: error: limit_mph: "0": a limit is more than 0',
      ],
    ],
    ['distance_m,height_m\n0,"0\n1,0\n', ["2: error: the quotation marks of this row do not match"]],
  ])("%j", (text, wanted) => expect(errors(text)).toEqual(wanted));
});
