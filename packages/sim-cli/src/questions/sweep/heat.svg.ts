import { figures } from "@rideon/sim-core";
import { type Figure, HALO, type Sheet, short, tag, tenth, textWidth_px, words } from "../../svg/draw.js";
import { luminance } from "../../svg/ink.js";
import type { Grid } from "./chart.js";
import { type Found, figureOf } from "./found.js";
import { type Entry, legend, MARK_px } from "./legend.svg.js";
import { reasonsOf, whyNone } from "./none.js";
import type { SweptRow } from "./rows.js";
import { fallsShort } from "./rows.js";

/** Light is good, dark is bad: two hues that colour-blind readers tell apart, and luminance runs one way. */
const GOOD = [240, 228, 66] as const;
const BAD = [0, 68, 122] as const;
/** Where all are alike, none is better than another. */
const ALIKE = "#e8dcc8";
/** Struck through besides: what falls short has no colour of what is good. */
const LACKING = "#d0d0d0";
/** Darker and hatched: what came to no figure at all, which must not look cleaner than what falls short. */
const NONE = "#a6a6a6";
/** No case stands there. */
const EMPTY = "#ffffff";

function colourOf(share: number): string {
  const channel = (i: number) => Math.round((BAD[i] ?? 0) + share * ((GOOD[i] ?? 0) - (BAD[i] ?? 0)));
  return `#${[0, 1, 2].map((i) => channel(i).toString(16).padStart(2, "0")).join("")}`;
}

const ROW_px = 30;
const HEAD_px = 46;
/** More cells across than this leave no room for figures in them. */
const FIGURES_px = 34;

interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

const struck = ({ x, y, width, height }: Box): string =>
  tag("path", { d: `M${tenth(x)} ${tenth(y + height)}l${tenth(width)} ${tenth(-height)}`, stroke: "#777" });

const HATCH_px = 6;

/** Lines from lower left to upper right, as many as the box has room for. */
function hatched({ x, y, width, height }: Box): string {
  const lines = Array.from({ length: Math.floor((width + height - 1) / HATCH_px) }, (_, i) => {
    const along = (i + 1) * HATCH_px;
    const [left, foot] = [Math.max(0, along - height), Math.min(height, along)];
    const [right, top] = [Math.min(width, along), Math.max(0, along - width)];
    return `M${tenth(x + left)} ${tenth(y + foot)}L${tenth(x + right)} ${tenth(y + top)}`;
  });
  return tag("path", { d: lines.join(""), stroke: "#5c5c5c", "data-hatch": "none" });
}

/** A cell or a mark of the legend: its colour, struck through where it falls short, hatched where it has no figure. */
const filled = (box: Box, fill: string, attributes: Record<string, string> = {}): string =>
  tag("rect", { ...box, fill, stroke: fill === EMPTY ? "#999" : "#fff", "stroke-width": 1, ...attributes }) +
  (fill === LACKING ? struck(box) : fill === NONE ? hatched(box) : "");

/** The figure of every case over two keys, or over the words of one. */
export function heatMap(
  found: Found,
  { across, down, cells }: Grid,
  sheet: Sheet,
  see: (all: readonly number[]) => string,
): Figure {
  const { best } = found.wanted;
  const names_px = down
    ? Math.min(150, 12 + 7.5 * Math.max(...down.values.map((each) => Math.min(18, each.length))))
    : 8;
  const wide_px = (sheet.width_px - names_px - 8) / across.values.length;
  const there = cells.flat().filter((row) => row !== undefined);
  const valued = there.filter((row) => figureOf(row, found) !== undefined);
  const figureIn = (row: SweptRow) => figureOf(row, found) ?? 0;
  // The scale is of those alone that may be told as better or worse.
  const sound = valued.filter((row) => !fallsShort(row)).map(figureIn);
  const [least, most] = [Math.min(...sound), Math.max(...sound)];
  const fillOf = (row: SweptRow | undefined): string => {
    if (!row) return EMPTY;
    if (figureOf(row, found) === undefined) return NONE;
    if (fallsShort(row)) return LACKING;
    if (!(most > least)) return ALIKE;
    const share = (figureIn(row) - least) / (most - least);
    return colourOf(best.better === "more" ? share : 1 - share);
  };
  const row_px = Math.max(8, Math.min(ROW_px, 600 / cells.length));
  const roomy = wide_px >= FIGURES_px && row_px >= 16;
  const textIn = (row: SweptRow | undefined): string => {
    if (!row) return "";
    const value = figureOf(row, found);
    if (value === undefined) {
      const why = whyNone(row, found);
      return roomy && textWidth_px(why, 0.88 * sheet.font_px) < wide_px - 4 ? why : "";
    }
    const mark = fallsShort(row) ? "!" : "";
    return roomy ? `${figures(value)} ${mark}`.trim() : mark;
  };
  const body = cells.flatMap((row, j) =>
    across.values.map((_, i) => {
      const box = { x: names_px + i * wide_px, y: HEAD_px + j * row_px, width: wide_px, height: row_px };
      const fill = fillOf(row[i]);
      return (
        filled(box, fill, { "data-cell": String(row[i]?.number ?? "") }) +
        words(box.x + wide_px / 2, box.y + row_px / 2 + 4, textIn(row[i]), {
          "text-anchor": "middle",
          fill: luminance(fill) < 0.3 ? "#fff" : "#000",
          ...((fill === LACKING || fill === NONE) && { ...HALO, stroke: fill }),
          "font-size": roomy ? 0.88 * sheet.font_px : 9,
        })
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
  const foot = HEAD_px + cells.length * row_px + 10;
  const key = legend(entriesOf(), sheet, foot);
  return {
    name: "sweep",
    title: `${best.name} of every case`,
    see: see(valued.map(figureIn)),
    height_px: foot + key.height_px,
    body: [name, ...heads, ...sides, ...body, key.body].join(""),
  };

  function entriesOf(): Entry[] {
    const [worse, better] = best.better === "more" ? [least, most] : [most, least];
    const coloured = (fill: string, text: string): Entry => ({
      mark: (x, y) => filled({ x, y, width: MARK_px, height: MARK_px }, fill, { stroke: "#777" }),
      text,
    });
    const scale =
      sound.length === 0
        ? []
        : most > least
          ? [
              coloured(colourOf(1), `${figures(better)}, the best`),
              coloured(colourOf(0), `${figures(worse)}, the worst that lacks nothing`),
            ]
          : [
              coloured(
                ALIKE,
                sound.length === 1
                  ? `${figures(most)}, the only one that lacks nothing`
                  : `${figures(most)}, alike in all that lack nothing`,
              ),
            ];
    const none = there.filter((row) => figureOf(row, found) === undefined);
    return [
      ...scale,
      ...(valued.some(fallsShort) ? [coloured(LACKING, "! falls short of something")] : []),
      ...reasonsOf(none, found).map(({ why, rows }) => coloured(NONE, `no figure: ${why} (${rows.length})`)),
    ];
  }
}
