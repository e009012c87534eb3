import { figures } from "@rideon/sim-core";
import { type Figure, type Sheet, WIDE } from "../../svg/draw.js";
import { gridOf } from "./chart.js";
import { type Found, figureOf } from "./found.js";
import { headline } from "./headline.js";
import { heatMap } from "./heat.svg.js";
import { alongOne } from "./line.svg.js";
import { scaleOf } from "./scale.js";

/** The figure of every case over the one or two keys that are varied; nothing where there are more, or too many. */
export function sweepFigure(found: Found, sheet: Sheet = WIDE): Figure | undefined {
  const grid = gridOf(found);
  if (!grid?.cells.flat().some((row) => figureOf(row, found) !== undefined)) return undefined;
  const see = (all: readonly number[]) => seeIn(found, all);
  if (grid.down) return heatMap(found, grid, sheet, see);
  const scale = scaleOf(grid.across.key, grid.across.values);
  const row = grid.cells[0] ?? [];
  // What has a figure has a place on the line, or there is no line.
  return scale?.at.every((at, i) => Number.isFinite(at) || figureOf(row[i], found) === undefined)
    ? alongOne(found, grid, scale, sheet, see)
    : heatMap(found, grid, sheet, see);
}

function seeIn(found: Found, all: readonly number[]): string {
  const [least, most] = [figures(Math.min(...all)), figures(Math.max(...all))];
  const better = found.wanted.best.better === "more" ? "more" : "less";
  const range =
    least === most ? `${most} in every case that has it.` : `From ${least} to ${most}, ${better} the better.`;
  return `${range} ${headline(found)}`.trim();
}
