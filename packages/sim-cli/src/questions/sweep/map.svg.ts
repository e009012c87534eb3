import { figures } from "@rideon/sim-core";
import { type Figure, HALO, plotRight_px, QUIET, type Sheet, short, tag, WIDE, words } from "../../svg/draw.js";
import { INKS, luminance } from "../../svg/ink.js";
import { about, panel, panelHeight_px } from "../../svg/panel.js";
import { plainly } from "../../svg/units.js";
import { type Grid, gridOf } from "./chart.js";
import { type Found, figureOf } from "./found.js";
import { type Scale, scaleOf } from "./scale.js";

/** The figure of every case over the one or two keys that are varied; nothing where there are more, or too many. */
export function sweepFigure(found: Found, sheet: Sheet = WIDE): Figure | undefined {
  const grid = gridOf(found);
  if (!grid || figuresIn(grid, found).length === 0) return undefined;
  if (grid.down) return heatMap(found, grid, sheet);
  const scale = scaleOf(grid.across.key, grid.across.values);
  const row = grid.cells[0] ?? [];
  // What has a figure has a place on the line, or there is no line.
  return scale?.at.every((at, i) => Number.isFinite(at) || figureOf(row[i], found) === undefined)
    ? alongOne(found, grid, scale, sheet)
    : heatMap(found, grid, sheet);
}

const figuresIn = ({ cells }: Grid, found: Found): number[] =>
  cells.flat().flatMap((row) => figureOf(row, found) ?? []);

/** Light is good, dark is bad: two hues that colour-blind readers tell apart, and luminance runs one way. */
const GOOD = [240, 228, 66] as const;
const BAD = [0, 68, 122] as const;

function colourOf(share: number): string {
  const channel = (i: number) => Math.round((BAD[i] ?? 0) + share * ((GOOD[i] ?? 0) - (BAD[i] ?? 0)));
  return `#${[0, 1, 2].map((i) => channel(i).toString(16).padStart(2, "0")).join("")}`;
}

const ROW_px = 30;
const HEAD_px = 46;
/** More cells across than this leave no room for figures in them. */
const FIGURES_px = 34;

function heatMap(found: Found, { across, down, cells }: Grid, sheet: Sheet): Figure {
  const { best } = found.wanted;
  const names_px = down
    ? Math.min(150, 12 + 7.5 * Math.max(...down.values.map((each) => Math.min(18, each.length))))
    : 8;
  const wide_px = (sheet.width_px - names_px - 8) / across.values.length;
  const all = figuresIn({ across, down, cells }, found);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const goodness = (value: number) => {
    const share = most > least ? (value - least) / (most - least) : 1;
    return best.better === "more" ? share : 1 - share;
  };
  const row_px = Math.max(8, Math.min(ROW_px, 600 / cells.length));
  const body = cells.flatMap((row, j) =>
    across.values.map((_, i) => {
      const each = row[i];
      const value = figureOf(each, found);
      const [x, y] = [names_px + i * wide_px, HEAD_px + j * row_px];
      const fill = value === undefined ? "#ffffff" : colourOf(goodness(value));
      const lacks = each !== undefined && value !== undefined && each.short.length > 0;
      const text = value === undefined ? (each ? "✗" : "") : `${figures(value)}${lacks ? " !" : ""}`;
      const dark = luminance(fill) < 0.3;
      return (
        tag("rect", {
          x,
          y,
          width: wide_px,
          height: row_px,
          fill,
          stroke: "#fff",
          "stroke-width": 1,
          "data-cell": String(each?.number ?? ""),
        }) +
        (wide_px >= FIGURES_px && row_px >= 16
          ? words(x + wide_px / 2, y + row_px / 2 + 4, text, {
              "text-anchor": "middle",
              fill: dark ? "#fff" : "#000",
              "font-size": 0.88 * sheet.font_px,
            })
          : lacks || value === undefined
            ? words(x + wide_px / 2, y + row_px / 2 + 4, value === undefined ? (each ? "✗" : "") : "!", {
                "text-anchor": "middle",
                fill: dark ? "#fff" : "#000",
                "font-size": 9,
              })
            : "")
      );
    }),
  );
  const every = Math.max(1, Math.ceil(44 / wide_px));
  const heads = across.values.map((value, i) =>
    i % every === 0
      ? words(
          names_px + (i + 0.5) * wide_px,
          HEAD_px - 8,
          short(value, Math.max(4, Math.floor((every * wide_px) / 7))),
          { "text-anchor": "middle" },
        )
      : "",
  );
  const sides = (down?.values ?? []).map((value, j) =>
    row_px >= 12 || j % 4 === 0 ? words(4, HEAD_px + (j + 0.5) * row_px + 4, short(value, 18)) : "",
  );
  const name = words(names_px, 14, `${across.key} →${down ? `   ${down.key} ↓` : ""}`, { "font-weight": "bold" });
  return {
    name: "sweep",
    title: `${best.name} of every case`,
    see: `${seeIn(found, all)} Light is ${best.better === "more" ? "more, and" : "less, and"} better; ✗ did not come to its end or cannot be used; ! falls short of something.`,
    height_px: HEAD_px + cells.length * row_px + 8,
    body: [name, ...heads, ...sides, ...body].join(""),
  };
}

function alongOne(found: Found, { across, cells }: Grid, { at: x, unit }: Scale, sheet: Sheet): Figure {
  const row = cells[0] ?? [];
  const order = x.flatMap((at, i) => (Number.isFinite(at) ? [i] : [])).sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0));
  const value = (i: number) => figureOf(row[i], found) ?? Number.NaN;
  const short_ = order.filter((i) => Number.isFinite(value(i)) && (row[i]?.short.length ?? 0) > 0);
  const all = figuresIn({ across, down: null, cells }, found);
  const spec = {
    name: "sweep",
    height_px: 200,
    x: {
      quantity: across.key,
      units: plainly(unit),
      range: [x[order[0] ?? 0] ?? 0, x[order.at(-1) ?? 0] ?? 1] as const,
    },
    y: {
      ...axisOf(found.wanted.best.name),
      range: about(all, 0.1 * Math.max(...all.map(Math.abs), 1e-9)),
    },
    lines: [
      { name: "all cases", ink: INKS[0], x: order.map((i) => x[i] ?? 0), y: order.map(value), dots: true },
      ...(short_.length > 0
        ? [{ name: "falls short", ink: INKS[1], x: short_.map((i) => x[i] ?? 0), y: short_.map(value), dots: true }]
        : []),
    ],
    foot: true,
  };
  const key = words(plotRight_px(sheet), 14, across.key, { "text-anchor": "end", fill: QUIET, ...HALO });
  return {
    name: "sweep",
    title: `${found.wanted.best.name} against ${across.key}`,
    see: `${seeIn(found, all)} Gaps are cases that did not come to their end or cannot be used${short_.length > 0 ? "; marked are those that fall short of something" : ""}.`,
    height_px: panelHeight_px(spec),
    body: panel(spec, sheet, 0) + key,
  };
}

const UNITS: Readonly<Record<string, string>> = { mps: "m/s", C: "°C", percent: "%", mm2: "mm²", Nm: "N m" };

/** `energy_Wh` is an energy in Wh; what has no unit is a number. */
function axisOf(name: string) {
  const [, quantity = name, unit = ""] = /^(.*)_(s|Wh|W|Ah|A|V|C|mps|percent|mm2|m|Nm|N|kg)$/.exec(name) ?? [];
  return { quantity: quantity.replaceAll("_", " "), units: plainly(unit === "" ? "number" : (UNITS[unit] ?? unit)) };
}

function seeIn({ wanted: { best }, best: [first], columns }: Found, all: readonly number[]): string {
  const range = `From ${figures(Math.min(...all))} to ${figures(Math.max(...all))}.`;
  if (!first) return range;
  const at = columns.varied.map((key, i) => `${key} ${first.settings[i]}`).join(", ");
  return `${range} The best is case ${first.number} (${at}): ${best.name} ${figures(Number(first.figures[best.name]))}.`;
}
