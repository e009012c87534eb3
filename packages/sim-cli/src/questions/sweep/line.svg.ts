import { type Figure, HALO, plotRight_px, QUIET, type Sheet, tag, words } from "../../svg/draw.js";
import { INKS } from "../../svg/ink.js";
import { about, along, HEADING_px, panel, panelHeight_px } from "../../svg/panel.js";
import { plainly, shownIn } from "../../svg/units.js";
import type { Grid } from "./chart.js";
import { type Found, figureOf } from "./found.js";
import { cross, type Entry, legend, MARK_px } from "./legend.svg.js";
import { reasonsOf } from "./none.js";
import { fallsShort } from "./rows.js";
import type { Scale } from "./scale.js";

/** Cases without the figure stand below the axis, a strip for each reason. */
const STRIP_px = 34;
/** Reasons with a strip of their own. */
const MOST_STRIPS = 6;

const dot = (cx: number, cy: number): string =>
  tag("circle", { cx, cy, r: 3.6, fill: INKS[0].colour, stroke: "#fff", "stroke-width": 0.7, "data-mark": "good" });

/** Grey, square and open: nothing of what is good. */
const lacking = (x: number, y: number): string =>
  tag("rect", {
    x: x - 4,
    y: y - 4,
    width: 8,
    height: 8,
    fill: "#d0d0d0",
    stroke: "#000",
    "stroke-width": 1,
    "data-mark": "short",
  });

/** The figure over the values of one key; what has none in strips below, each with its reason in words. */
export function alongOne(
  found: Found,
  { across, cells }: Grid,
  { at: x, unit }: Scale,
  sheet: Sheet,
  see: (all: readonly number[]) => string,
): Figure {
  const row = cells[0] ?? [];
  const order = x.flatMap((at, i) => (Number.isFinite(at) ? [i] : [])).sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0));
  const value = (i: number) => figureOf(row[i], found) ?? Number.NaN;
  const all = order.map(value).filter(Number.isFinite);
  const xs = order.map((i) => x[i] ?? 0);
  const whole = (values: readonly number[]) => values.every(Number.isInteger);
  const range: [number, number] = [Math.min(...xs), Math.max(...xs)];
  const spare = 0.03 * (range[1] - range[0]);
  const spec = {
    name: "sweep",
    height_px: 200,
    // No case stands on the frame.
    x: { quantity: across.key, units: plainly(unit), range: [range[0] - spare, range[1] + spare] as const },
    y: { ...axisOf(found.wanted.best.name), range: about(all, 0.1 * Math.max(...all.map(Math.abs), 1e-9)) },
    lines: [{ name: "", ink: INKS[0], x: xs, y: order.map(value) }],
    foot: true,
    whole: whole(xs),
    wholeUp: whole(all),
  };
  const right = along(spec.x, [sheet.left_px, plotRight_px(sheet)]);
  const up = along(spec.y, [HEADING_px + spec.height_px, HEADING_px]);
  const at = (i: number) => right(shownIn(x[i] ?? 0, spec.x.units));
  const lacks = (i: number) => row[i] !== undefined && fallsShort(row[i]);
  const there = order.filter((i) => Number.isFinite(value(i)));
  const marks = there.map((i) => (lacks(i) ? lacking : dot)(at(i), up(shownIn(value(i), spec.y.units))));
  const placeOf = new Map(order.map((i) => [row[i]?.number ?? Number.NaN, at(i)]));
  const without = row.filter((each) => each !== undefined).filter((each) => figureOf(each, found) === undefined);
  const known = reasonsOf(without, found);
  const [own, rest] = [known.slice(0, MOST_STRIPS), known.slice(MOST_STRIPS).flatMap(({ rows }) => rows)];
  const reasons = rest.length > 0 ? [...own, { why: "other reasons", rows: rest }] : own;
  const top = panelHeight_px(spec);
  const strips = reasons.map(({ why, rows }, j) => {
    const y = top + j * STRIP_px;
    const base = tag("path", { d: `M${sheet.left_px} ${y + 24}H${plotRight_px(sheet)}`, stroke: "#bbb" });
    const crosses = rows.flatMap(({ number }) => {
      const place = placeOf.get(number);
      return place === undefined ? [] : [tag("g", { "data-none": String(number) }, cross(place, y + 24))];
    });
    return words(sheet.left_px, y + 12, `no figure: ${why} (${rows.length})`, HALO) + base + crosses.join("");
  });
  const entries: Entry[] = [
    ...(there.some((i) => !lacks(i)) && there.some(lacks) ? [{ mark: markOf(dot), text: "without a lack" }] : []),
    ...(there.some(lacks) ? [{ mark: markOf(lacking), text: "falls short of something" }] : []),
  ];
  const foot = top + strips.length * STRIP_px + 6;
  const key = legend(entries, sheet, foot);
  const name = words(plotRight_px(sheet), 14, across.key, { "text-anchor": "end", fill: QUIET, ...HALO });
  return {
    name: "sweep",
    title: `${found.wanted.best.name} against ${across.key}`,
    see: `${see(all)}${reasons.length > 0 ? " Crosses below the axis are cases without the figure." : ""}${there.some(lacks) ? " Grey squares fall short of something." : ""}`,
    height_px: foot + key.height_px,
    body: panel(spec, sheet, 0) + marks.join("") + strips.join("") + key.body + name,
  };
}

const markOf =
  (draw: (x: number, y: number) => string): Entry["mark"] =>
  (x, y) =>
    draw(x + MARK_px / 2, y + MARK_px / 2);

const UNITS: Readonly<Record<string, string>> = { mps: "m/s", C: "°C", percent: "%", mm2: "mm²", Nm: "N m" };

/** `energy_Wh` is an energy in Wh; what has no unit is a number. */
function axisOf(name: string) {
  const [, quantity = name, unit = ""] = /^(.*)_(s|Wh|W|Ah|A|V|C|mps|percent|mm2|m|Nm|N|kg)$/.exec(name) ?? [];
  return { quantity: quantity.replaceAll("_", " "), units: plainly(unit === "" ? "number" : (UNITS[unit] ?? unit)) };
}
