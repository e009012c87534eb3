import { describe, expect, test } from "vitest";
import { casesTold, counted, noCases } from "../../packages/sim-cli/src/questions/sweep/cases.js";
import { documentOf, warningsOf } from "../../packages/sim-cli/src/questions/sweep/document.js";
import { type Found, find, nothingFound } from "../../packages/sim-cli/src/questions/sweep/found.js";
import { sweepPage } from "../../packages/sim-cli/src/questions/sweep/page.js";
import { columnsIn } from "../../packages/sim-cli/src/questions/sweep/rows.js";
import { wantedOf } from "../../packages/sim-cli/src/questions/sweep/wanted.js";
import { warnedCell, warnedIn } from "../../packages/sim-cli/src/questions/sweep/warned.js";
import { sweepInWords } from "../../packages/sim-cli/src/questions/sweep/words.js";

const AFTER = "outcome,falls_short,warnings,warned,why";

function foundIn(head: string, lines: readonly string[], best?: string, ...needs: string[]): Found {
  const columns = columnsIn(head);
  const found = nothingFound(columns, wantedOf(columns, best, needs));
  for (const line of lines) find(found, line);
  return found;
}
const wordsOf = (found: Found, path?: string) =>
  sweepInWords(found, found.rows, path).join(" ").replaceAll(/\s+/g, " ");
const pageOf = (found: Found) => sweepPage(found, found.rows, []).replaceAll(/\s+/g, " ");

describe("numbers of cases", () => {
  const told = (numbers: readonly number[]) => {
    const cases = noCases();
    for (const number of numbers) counted(cases, number);
    return casesTold(cases);
  };
  test("are runs of neighbours, and those beyond the first runs are counted", () => {
    expect(told([1, 2, 3, 5, 8, 9])).toBe("1 to 3, 5, 8, 9");
    const odd = Array.from({ length: 12 }, (_, i) => 2 * i + 1);
    expect(told(odd)).toBe("1, 3, 5, 7, 9, 11, 13, 15 and 4 more");
    // A neighbour of the last that is told, behind one that was left out, is no part of its run.
    expect(told([...odd.slice(0, 9), 18])).toBe("1, 3, 5, 7, 9, 11, 13, 15 and 2 more");
  });
});

describe("what the plans warn of", () => {
  const SEATS = { code: "more_passengers_than_seats", path: "plan.passengers", message: "9 passengers on 8 seats" };
  const GRIP = { code: "grip", path: "loco.controller", message: 'pulls "757 N", and | grips 303 N' };
  const HEAD = `case,passengers,laps_to_reserve,${AFTER}`;
  const more = { ...SEATS, message: "20 passengers on 8 seats" };
  const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const row = (number: number, ...warnings: (typeof SEATS)[]) =>
    `${number},${number},${50 - number},completed,,${warnings.length},${quoted(warnedCell(warnings))},`;
  const found = foundIn(HEAD, [row(1, GRIP), row(2, GRIP, SEATS), row(3, GRIP, more)]);

  test("goes through a cell and back", () => {
    expect(warnedIn(warnedCell([SEATS, GRIP]))).toEqual([
      SEATS,
      { ...GRIP, message: 'pulls "757 N", and / grips 303 N' },
    ]);
    expect(warnedIn("")).toEqual([]);
  });
  test("is told once each with its cases, in text, page and JSON", () => {
    const text = wordsOf(found);
    expect(text).toContain('1 to 3 pulls "757 N"');
    expect(text).toContain("2, 3 9 passengers on 8 seats; likewise of the others, with their own figures");
    expect(pageOf(found)).toContain(
      '<th scope="row">2, 3</th><td>9 passengers on 8 seats; likewise of the others, with their own figures</td>',
    );
    expect(warningsOf(found).map(({ code }) => code)).toEqual(["grip", "more_passengers_than_seats"]);
    expect(documentOf(found, 3)["warned"]).toContainEqual({
      code: SEATS.code,
      path: SEATS.path,
      messages: [SEATS.message, more.message],
      cases: 2,
      first: [[2, 3]],
    });
  });
  test("is cut short where there is much of it, and the rest counted", () => {
    const many = Array.from({ length: 9 }, (_, i) => ({ ...GRIP, path: `loco.part_${i}` }));
    expect(wordsOf(foundIn(HEAD, [row(1, ...many)]), "sweep.csv")).toContain(
      "… 4 warnings more: the column warned of sweep.csv has them",
    );
  });
});

describe("what is needed", () => {
  const HEAD = `case,loco.mass,stops_m,stops_in_sight,${AFTER}`;
  const lines = [
    "1,150 kg,10.7,yes,completed,,0,,",
    "2,160 kg,12,yes,completed,,0,,",
    "3,170 kg,,no,completed,no_brake,0,,",
  ];
  test("and met by none is told with the nearest, and every case misses it", () => {
    const found = foundIn(HEAD, lines, undefined, "stops_m<1");
    expect(wordsOf(found)).toContain("No case meets stops_m<1; the nearest is case 1, 10.7.");
    expect(wordsOf(found)).toContain("3 1 to 3 misses stops_m<1");
    expect(found.short).toBe(3);
    const [row] = documentOf(found, 3)["rows"] as { falls_short: unknown }[];
    expect(row!.falls_short).toEqual([{ lack: "need", by: null, message: "misses stops_m<1" }]);
  });
  test("and met by some ranks these alone, and marks the others", () => {
    const found = foundIn(HEAD, lines, undefined, "stops_m<11");
    expect(found.best.map(({ number }) => number)).toEqual([1]);
    expect(wordsOf(found)).toContain("The best that has stops_m<11 is case 1: stops_m 10.7.");
    expect(wordsOf(found)).toContain("2 2, 3 misses stops_m<11");
  });
  test("and met one by one but never together says so", () => {
    expect(wordsOf(foundIn(HEAD, lines, undefined, "stops_m<11", "loco.mass=160 kg"))).toContain(
      "No case meets stops_m<11 and loco.mass=160 kg together.",
    );
  });
});

describe("the best", () => {
  const HEAD = `case,passengers,most_aboard,may_carry,${AFTER}`;
  const rows = (...most: number[]) => most.map((each, i) => `${i + 1},${i},${each},yes,completed,,0,,`);
  test("are counted where they tie, wherever they stand", () => {
    expect(wordsOf(foundIn(HEAD, rows(7, 6, 7, 7)))).toContain(
      "3 cases tie for the best, the first of them case 1: most_aboard 7.",
    );
    expect(wordsOf(foundIn(HEAD, rows(5, 5, 7)))).toContain("The best is case 3: most_aboard 7.");
    // As they are told: nobody reads the fifth figure.
    const mass = `case,passengers,stops_m,${AFTER}`;
    const near = ["1,1,10.701,completed,,0,,", "2,2,10.7,completed,,0,,", "3,3,12,completed,,0,,"];
    expect(foundIn(mass, near)).toMatchObject({ ties: 2, best: [{ number: 2 }, { number: 1 }, { number: 3 }] });
  });
  test("that lack something are told as such, plainly", () => {
    const lacking = ["1,4,0,no,completed,may_carry,0,,", "2,5,0,no,completed,may_carry,0,,"];
    expect(wordsOf(foundIn(HEAD, lacking))).toContain(
      "No case is without a lack. The least bad by most_aboard is case 1, first of 2 that tie, with 0: it may carry nobody.",
    );
  });
  test("of no case at all are none, and no table is empty", () => {
    const text = sweepInWords(foundIn(HEAD, []), 0).join("\n");
    expect(text).toMatch(/^No case: this share has none of them\.\n\nThis is a simulation/);
  });
});

describe("cases that came to nothing", () => {
  const HEAD = `case,passengers,rail,laps,energy_Wh,${AFTER}`;
  const lines = Array.from({ length: 30 }, (_, i) => {
    const settings = `${i + 1},${i},${i % 2 ? "wet" : "dry"},${i}`;
    if (i === 0) return `${settings},,invalid,,,,"rail: muddy, is not one"`;
    return i < 25 ? `${settings},,stalled,stalled,0,,` : `${settings},${10 + i},completed,,0,,`;
  });
  const found = foundIn(HEAD, lines);
  test("are named with their settings and why, the first twenty of them, in text and page", () => {
    expect(wordsOf(found, "sweep.csv")).toContain("1 0 dry 0 cannot be used: rail: muddy, is not one");
    expect(wordsOf(found, "sweep.csv")).toContain("20 19 wet 19 stalled … 5 more: sweep.csv has them");
    expect(pageOf(found)).toContain("<td>cannot be used: rail: muddy, is not one</td>");
    expect(pageOf(found)).toContain("<td>5 more: sweep.csv has them</td>");
  });
  test("and all others are rows of the JSON", () => {
    const { rows, rows_left_out } = documentOf(found, 30) as { rows: object[]; rows_left_out: number };
    expect([rows.length, rows_left_out]).toEqual([30, 0]);
    expect(rows[0]).toMatchObject({ case: 1, outcome: "invalid", why: "rail: muddy, is not one" });
    expect(rows[1]).toMatchObject({
      settings: { passengers: "1", rail: "wet", laps: "1" },
      falls_short: [{ lack: "stalled", by: null, message: "stalls" }],
    });
  });
});

test("a band of some of the draws alone says so", () => {
  const HEAD = `case,passengers,laps_to_reserve,laps_to_reserve_p05,laps_to_reserve_p95,laps_to_reserve_told_in,${AFTER}`;
  const found = foundIn(HEAD, [
    "1,6,50,40,60,1,completed,,0,,",
    "2,7,45,35,55,0.93,completed,,0,,",
    "3,8,42,33,52,0.5875,completed,,0,,",
  ]);
  expect(wordsOf(found)).toContain(
    "The band of laps_to_reserve is that of the draws that have such a figure, and in cases 2, 3 fewer than nineteen in twenty have: 58.8 in a hundred at the least (column laps_to_reserve_told_in).",
  );
  expect(pageOf(found)).toContain("fewer than nineteen in twenty have");
});
