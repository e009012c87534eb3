import { figures } from "@rideon/sim-core";
import { fits, table } from "../../words/table.js";
import { type Found, figureOf } from "./found.js";
import { whyNone } from "./none.js";
import type { SweptRow } from "./rows.js";
import { fallsShort, wasAsked, wentWell } from "./rows.js";

/** What is shown over the values of one or two keys. */
export interface Grid {
  /** Along the lines, and down them; of one key, nothing down. */
  across: { key: string; values: string[] };
  down: { key: string; values: string[] } | null;
  /** Line after line; absent where there is no such case. */
  cells: (SweptRow | undefined)[][];
}

/** A picture has room for no more. */
const MOST_DRAWN = 1600;

/** Columns of a sweep in which something is varied; one or two can be drawn. */
export function gridOf({ kept: drawn, rows, columns }: Pick<Found, "kept" | "rows" | "columns">): Grid | undefined {
  if (rows > MOST_DRAWN || drawn.length < rows) return undefined;
  const axes = columns.varied
    .map((key, i) => ({ key, i, values: [...new Set(drawn.map(({ settings }) => settings[i] ?? ""))] }))
    .filter(({ values }) => values.length > 1);
  const [first, second] = axes;
  if (!first || axes.length > 2) return undefined;
  const across = second ?? first;
  const down = second ? first : null;
  // Cases of a file need not fill the grid.
  if (down && down.values.length * across.values.length > 2 * drawn.length) return undefined;
  const at = (row: SweptRow, { i, values }: typeof first) => values.indexOf(row.settings[i] ?? "");
  const cells: (SweptRow | undefined)[][] = Array.from({ length: down ? down.values.length : 1 }, () => []);
  for (const row of drawn) (cells[down ? at(row, down) : 0] as SweptRow[])[at(row, across)] = row;
  return { across, down, cells };
}

/** As many as a terminal has room for. */
const MOST_ACROSS = 16;
const MOST_DOWN = 30;
const BAR = 30;

/** The figure of every case where one or two keys are varied: bars, or a table both ways; nothing where they are too many. */
export function grid(found: Found, width: number): string[] {
  const shown = gridOf(found);
  if (!shown) return [];
  if (!shown.down) return bars(found, shown, width);
  const lines = bothWays(found, shown, width);
  return lines.length > 0 ? lines : bothWays(found, turned(shown), width);
}

/** What went down goes across. */
const turned = ({ across, down, cells }: Grid): Grid => ({
  across: down ?? across,
  down: down && across,
  cells: across.values.map((_, i) => cells.map((line) => line[i])),
});

/** A figure, marked where its case falls short; of a case without one, how it ended. */
function told(row: SweptRow | undefined, found: Found): string {
  if (!row) return "";
  const value = figureOf(row, found);
  // How it ended says enough of one that did not get round.
  const mark = wentWell(row) && fallsShort(row) ? " !" : "";
  if (value === undefined) return wasAsked(row) ? `${whyNone(row, found)}${mark}` : "✗";
  return `${figures(value)}${mark}`;
}

const MARKED = "! falls short of something";

function bars(found: Found, { across, cells }: Grid, width: number): string[] {
  if (across.values.length > MOST_DOWN) return [];
  const row = cells[0] ?? [];
  const most = Math.max(0, ...row.flatMap((each) => figureOf(each, found) ?? []));
  const lines = across.values.map((value, i) => {
    const figure = figureOf(row[i], found);
    const bar = figure === undefined || most <= 0 ? "" : "█".repeat(Math.max(0, Math.round((BAR * figure) / most)));
    return [value, told(row[i], found), bar];
  });
  return [...table(lines, { width, head: [across.key, found.wanted.best.name, ""], right: [1] }), ...legend(row)];
}

function bothWays(found: Found, { across, down, cells }: Grid, width: number): string[] {
  if (!down || across.values.length > MOST_ACROSS || down.values.length > MOST_DOWN) return [];
  const head = [`${down.key} \\ ${across.key}`, ...across.values];
  const lines = down.values.map((value, j) => [value, ...across.values.map((_, i) => told(cells[j]?.[i], found))]);
  if (!fits([head, ...lines], width)) return [];
  return [...table(lines, { width, head, right: across.values.map((_, i) => i + 1) }), ...legend(cells.flat())];
}

function legend(rows: readonly (SweptRow | undefined)[]): string[] {
  const there = rows.filter((row) => row !== undefined);
  return [
    ...(there.some((row) => wentWell(row) && fallsShort(row)) ? [MARKED] : []),
    ...(there.some((row) => !wasAsked(row)) ? ["✗ cannot be used"] : []),
  ];
}
