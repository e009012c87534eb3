import { needsNoDrive, type SweptFigure } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { fits, section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { roomForCases } from "./cases.js";
import { grid } from "./chart.js";
import type { Found } from "./found.js";
import { endedTold, headline, outcomeTold } from "./headline.js";
import { lacksOf, shortTold } from "./lacks.js";
import { bandLines, failedIn, failedRows, LACKS_HEAD, lackRows, wrongIn } from "./lists.js";
import type { SweptRow } from "./rows.js";
import { fallsShort } from "./rows.js";
import { valueTold } from "./values.js";
import { warnedRows } from "./warned.js";

/** So many warnings are told where there is a page or a file for the others. */
const MOST_WARNED = 5;

/** How they ended, which are best, and what stands in the way of the others. */
export function sweepInWords(found: Found, complete: number, path?: string): string[] {
  const { wanted } = found;
  const screen = terminal();
  const inside = screen.columns - 2;
  const headed = (head: readonly string[], rows: string[][]) =>
    rows.length === 0 ? [] : table(rows, { width: inside, head });
  const wrapped = (text: string) => (text === "" ? [] : wrap(text, screen.columns));
  const beside = sideBySide(found, inside);
  const map = beside.length > 0 ? [] : grid(found, inside);
  // What a picture of every case shows is not said again, but for why.
  const failed = map.length > 0 || beside.length > 0 ? wrongIn(found) : failedIn(found);
  const unasked = found.rows === 0 ? "" : notAsked(found);
  return [
    ...wrapped(endedTold(found, complete)).map((line) => painted(line, "bold", screen)),
    ...wrapped(headline(found)),
    ...section("Side by side", beside),
    ...section(
      `The best by ${wanted.best.name}, ${wanted.best.better === "more" ? "the most" : "the least"} first`,
      beside.length > 0 ? [] : bestTable(found, inside),
    ),
    ...section(`${wanted.best.name} of every case`, map),
    ...section("What they fall short of", headed(LACKS_HEAD, lackRows(found, roomForCases(inside)))),
    ...section(
      "Cases that came to nothing",
      headed(["case", ...found.columns.varied, "why"], failedRows(failed, found.columns, path)),
    ),
    ...section(
      "Warnings of the plan, case by case",
      headed(["cases", "warning"], warnedRows(found.warned, MOST_WARNED, path, roomForCases(inside))),
    ),
    ...bandLines(found).flatMap((line) => ["", ...wrapped(line)]),
    ...(unasked === "" ? [] : ["", ...wrapped(unasked)]),
    "",
    ...wrapped(CAUTION),
  ];
}

/** So few are told with every figure. */
const MOST_BESIDE = 5;

/** A column a case, a row a figure. */
function sideBySide({ kept, rows, columns }: Found, width: number): string[] {
  if (rows === 0 || rows > MOST_BESIDE) return [];
  const told = (of: (row: SweptRow) => string) => kept.map(of);
  const lines = [
    ...columns.varied.map((key, i) => [key, ...told(({ settings }) => short(settings[i] ?? ""))]),
    ...columns.figures.map(({ name }) => [name, ...told((row) => valueTold(row.figures[name]))]),
    ["ended", ...told(({ outcome }) => outcomeTold(outcome))],
  ];
  const head = ["case", ...told(({ number }) => String(number))];
  const lacking = (words: (row: SweptRow) => string) => [
    ...lines,
    ["falls short", ...told((row) => (fallsShort(row) ? words(row) : "–"))],
  ];
  // Where sentences are too long to stand beside each other, the list below has them.
  const all = [lacking((row) => lacksOf(row).join(", ")), lacking(() => "yes, see below")].find((each) =>
    fits([head, ...each], width),
  );
  return all ? table(all, { width, head }) : [];
}

/** The end of a path tells more than its beginning. */
const short = (text: string): string => (text.length <= LONGEST ? text : `…${text.slice(1 - LONGEST)}`);
const LONGEST = 20;

/** A sentence is broken into lines as narrow as this. */
const LEAST_ROOM = 16;

function bestTable({ best, wanted, columns }: Found, width: number): string[] {
  if (best.length === 0) return [];
  // The figure they are ranked by first, then what they must have, then the rest as far as the terminal goes.
  const named = new Set(wanted.needs.map(({ name }) => name));
  const others = columns.figures.filter(({ name }) => name !== wanted.best.name);
  const shown: SweptFigure[] = [wanted.best, ...others.filter(({ name }) => named.has(name))];
  const lacks = best.some(fallsShort);
  const head = ["case", ...columns.varied, ...shown.map(({ name }) => name), ...(lacks ? ["but"] : [])];
  const rowsWith = (lack: (row: SweptRow) => string) =>
    best.map((row) => [
      String(row.number),
      ...row.settings,
      ...shown.map(({ name }) => valueTold(row.figures[name])),
      ...(lacks ? [lack(row)] : []),
    ]);
  // Where sentences have no room beside the figures, the list below has them.
  const broken = rowsWith((row) => shortTold(row).slice(0, LEAST_ROOM));
  const marked = rowsWith((row) => (fallsShort(row) ? "!" : ""));
  const rows = !fits([head, ...broken], width) && fits([head, ...marked], width) ? marked : rowsWith(shortTold);
  return table(rows, { width, head, right: [0, ...shown.map((_, i) => 1 + columns.varied.length + i)] });
}

/** Whatever was not asked may still stand in the way. */
export function notAsked({ columns: { figures: asked } }: Found): string {
  const questions = new Set(asked.map(({ question }) => question));
  // Of a loco that has no drive yet there is nothing to ask them.
  if (questions.has("limits") || needsNoDrive([...questions])) return "";
  const lacking = [
    questions.has("climb") ? "" : "start again on the steepest bit",
    questions.has("brakes") ? "" : "stop in time",
  ].filter((each) => each !== "");
  if (lacking.length === 0) return "";
  return `Whether they ${lacking.join(" and ")} was not asked: --ask limits tells what each may carry.`;
}
