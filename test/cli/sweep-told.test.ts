import { describe, expect, test } from "vitest";
import { casesTold, counted, noCases } from "../../packages/sim-cli/src/questions/sweep/cases.js";
import { grid } from "../../packages/sim-cli/src/questions/sweep/chart.js";
import { documentOf, warningsOf } from "../../packages/sim-cli/src/questions/sweep/document.js";
import { type Found, find, nothingFound } from "../../packages/sim-cli/src/questions/sweep/found.js";
import { sweepFigure } from "../../packages/sim-cli/src/questions/sweep/map.svg.js";
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
  test("are as many as have room, and the first always", () => {
    const cases = noCases();
    for (const number of [1, 2, 3, 11, 15, 19, 22, 23]) counted(cases, number);
    expect(casesTold(cases, 26)).toBe("1 to 3, 11, 15, 19, 22, 23");
    expect(casesTold(cases, 25)).toBe("1 to 3, 11, 15 and 3 more");
    expect(casesTold(cases, 22)).toBe("1 to 3, 11 and 4 more");
    expect(casesTold(cases, 3)).toBe("1 to 3 and 5 more");
  });
  test("leave what they fall short of a table of 80 columns, however many there are", () => {
    const head = `case,passengers,rail,laps_to_reserve,restarts,${AFTER}`;
    // Neighbours differ, so that no two make a run.
    const lines = Array.from({ length: 2400 }, (_, i) =>
      i % 2 === 0
        ? `${i + 1},${i},dry,50,yes,completed,,0,,`
        : `${i + 1},${i},wet,50,no,completed,${i % 4 === 1 ? "all_to_be_had" : "restarts"},1,slips loco.gears: it slips,`,
    );
    const text = sweepInWords(foundIn(head, lines), 2400);
    const at = text.indexOf("What they fall short of");
    const lacks = text.slice(at + 1, text.indexOf("", at));
    expect(lacks[0]).toMatch(/^ {2}how many {2}cases +falls short$/);
    expect(lacks[1]).toMatch(/^ {2}600 {7}\d+, .* and \d+ more +\S/);
    expect(text.filter((line) => line.length > 80)).toEqual([]);
    // Sentences stand under each other.
    const column = lacks[0]!.indexOf("falls short");
    expect(lacks.slice(1).every((line) => /^ {2}\S/.test(line.slice(column - 2)))).toBe(true);
    expect(text.find((line) => /^ {2}cases +warning$/.test(line))).toBeDefined();
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
  test("are none where no case came to its end, whatever is needed", () => {
    const ended = ["1,4,0,no,tripped,tripped,0,,", "2,5,0,no,tripped,tripped,0,,"];
    const text = wordsOf(foundIn(HEAD, ended, undefined, "may_carry=yes"));
    expect(text).toMatch(/^2 cases: 2 tripped\. No case came to its end\. Side by side/);
    expect(text).toContain("2 1, 2 trips");
  });
  test("have a mark where their lacks have no room beside them", () => {
    const keys = Array.from({ length: 2 }, (_, i) => `loco.some.long.key.${i}`).join(",");
    const lines = Array.from({ length: 6 }, (_, i) => `${i + 1},a,b,${i},yes,completed,beyond_seats:2,0,,`);
    const text = sweepInWords(foundIn(`case,${keys},most_aboard,may_carry,${AFTER}`, lines), 6).join("\n");
    expect(text).toMatch(/^ +6 .* 5 +!$/m);
    expect(text).toMatch(/^ +6 +1 to 6 +has more aboard than seats$/m);
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

describe("a picture of a sweep", () => {
  const fills = (body: string) =>
    new Map(
      [...body.matchAll(/<rect [^>]*fill="(#\w+)"[^>]*data-cell="(\d+)"/g)].map(([, fill, n]) => [Number(n), fill]),
    );
  const HEAD = `case,passengers,rail,laps_to_reserve,restarts,${AFTER}`;
  const picture = (cells: readonly string[]) =>
    sweepFigure(
      foundIn(
        HEAD,
        cells.map((cell, i) => `${i + 1},${i >> 1},${i % 2 ? "wet" : "dry"},${cell}`),
      ),
    )!;
  const GOOD = "#f0e442";

  test("of two keys has grey where a case falls short, and scales the colours by the others", () => {
    const { body } = picture([
      "50,yes,completed,,0,,",
      "90,no,completed,restarts,0,,",
      "40,yes,completed,,0,,",
      "10,no,completed,restarts,0,,",
      ",,invalid,,,,no",
      "30,no,stalled,stalled,0,,",
    ]);
    const cells = fills(body);
    expect([1, 3].map((n) => cells.get(n))).toEqual([GOOD, "#00447a"]);
    expect([2, 4].map((n) => cells.get(n))).toEqual(["#d0d0d0", "#d0d0d0"]);
    expect([5, 6].map((n) => cells.get(n))).toEqual(["#a6a6a6", "#a6a6a6"]);
    // Two cells and two entries of the legend, alike.
    expect(body.match(/<rect [^>]*fill="#a6a6a6"[^>]*\/><path [^>]*data-hatch="none"/g)).toHaveLength(4);
    expect(body).not.toContain("✗");
    for (const told of ["50, the best", "40, the worst that lacks nothing", "! falls short of something"])
      expect(body).toContain(`data-legend="${told}"`);
    expect(body).toContain('data-legend="no figure: stalled (1)"');
    expect(body).toContain('data-legend="no figure: cannot be used (1)"');
  });
  test("of values that are all alike has no colour of good", () => {
    const cells = fills(picture(Array.from({ length: 4 }, () => "50,yes,completed,,0,,")).body);
    expect([...new Set(cells.values())]).toEqual(["#e8dcc8"]);
    expect([
      ...fills(picture(Array.from({ length: 4 }, () => "50,no,completed,restarts,0,,")).body).values(),
    ]).not.toContain(GOOD);
  });
  test("of one key has every mark within its frame, and what has no figure in strips that say why", () => {
    const one = `case,passengers,most_aboard,may_carry,with_no_brake,${AFTER}`;
    const lines = [
      "1,5,7,yes,,completed,,0,,",
      "2,6,8,yes,,completed,,0,,",
      "3,8,7,no,,completed,too_many_aboard:1,0,,",
      "4,12,,,,stalled,stalled,0,,",
      "5,13,0,no,,tripped,tripped,0,,",
      "6,14,,,,invalid,,,,no",
    ];
    const { body, height_px } = sweepFigure(foundIn(one, lines))!;
    const count = (what: RegExp) => body.match(what)?.length ?? 0;
    expect([count(/data-mark="good"/g), count(/data-mark="short"/g), count(/data-none=/g)]).toEqual([2 + 1, 1 + 1, 3]);
    expect(body).not.toContain("NaN");
    const heights = [...body.matchAll(/ (?:cy|y)="([\d.-]+)"/g)].map(([, y]) => Number(y));
    expect(Math.min(...heights)).toBeGreaterThan(0);
    expect(Math.max(...heights)).toBeLessThanOrEqual(height_px);
    for (const why of ["stalled", "tripped", "cannot be used"]) expect(body).toContain(`no figure: ${why} (1)`);
    // Nobody is 7.5 people.
    const ticks = [...body.matchAll(/data-tick="\w+">([^<]*)</g)].map(([, tick]) => tick);
    expect(ticks).toContain("7");
    expect(ticks.filter((tick) => tick!.includes("."))).toEqual([]);
  });
  test("of one key has a cross for every case without the figure, however many the reasons", () => {
    const ways = ["stalled", "slipping", "flat", "overran", "ran_away", "tripped", "burnt_out", "unfinished"];
    const lines = ways.map((way, i) => `${i + 2},${i + 2},,${way},,0,,`);
    const { body } = sweepFigure(
      foundIn(`case,passengers,laps_to_reserve,${AFTER}`, ["1,1,50,completed,,0,,", ...lines]),
    )!;
    expect(body.match(/data-none="\d"/g)).toHaveLength(8);
    expect(body).toContain("no figure: other reasons (2)");
  });
  test("of what runs on for no distance says what becomes of it", () => {
    const brakes = `case,loco.mass,stops_m,runs_on_m,with_no_brake,stops_in_sight,${AFTER}`;
    const lines = [
      "1,150 kg,12,80,stops,yes,completed,,0,,",
      "2,160 kg,12,,runs away,yes,completed,,0,,",
      "3,170 kg,,,runs away,no,completed,cannot_be_stopped runs_away_unbraked,0,,",
    ];
    expect(sweepFigure(foundIn(brakes, lines, "runs_on_m"))!.body).toContain("no figure: runs away (2)");
    expect(sweepFigure(foundIn(brakes, lines, "stops_m"))!.body).toContain("no figure: cannot be stopped (1)");
    expect(grid(foundIn(brakes, lines), 80).join(" ").replaceAll(/\s+/g, " ")).toContain("170 kg cannot be stopped !");
    const words = wordsOf(foundIn(brakes, lines));
    expect(words).toContain("falls short – – yes, see below");
    expect(words).toContain("1 3 cannot be stopped 1 3 runs away with no brake");
  });
});
