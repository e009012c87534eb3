import { scaleLinear } from "d3-scale";
import { extent } from "../ground/extent.js";
import { type Box, plotRight_px, plotWidth_px, QUIET, type Sheet, tag, tenth, textWidth_px, words } from "./draw.js";
import type { Ink } from "./ink.js";
import { labelled } from "./labels.js";
import { type Point, straightened, thinned } from "./thin.js";
import { shownIn, type Units } from "./units.js";

/** A quantity in SI along one side of a panel. */
export interface Axis {
  quantity: string;
  units: Units;
  range: readonly [from: number, to: number];
}

/** Values in SI; NaN leaves a gap, and what lies outside is drawn at the edge. */
export interface Line {
  name: string;
  ink: Ink;
  x: readonly number[];
  y: readonly number[];
  /** Marks at its points: few of them, each a case of its own. */
  dots?: boolean;
  /** Has no name beside it: what stands below the picture says what it is. */
  bare?: boolean;
}

/** Part of a panel that is out of bounds, or a step of what is wanted: filled, with its edge drawn. */
export interface Shade {
  name: string;
  x?: readonly [from: number, to: number];
  y: readonly [from: number, to: number];
  label?: string;
  fill?: string;
  /** Which of its sides is what it is about: drawn, with the label beside it. Its foot, unless it begins with the panel. */
  edge?: "head" | "foot";
}

export interface Panel {
  name: string;
  height_px: number;
  x: Axis;
  y: Axis;
  lines: readonly Line[];
  shades?: readonly Shade[];
  /** Places marked all the way up. */
  posts?: readonly number[];
  /** Figures along the foot: of the lowest of panels that stand on one scale. */
  foot?: boolean;
  /** Marks at every whole number. */
  whole?: boolean;
  /** The same up its side. */
  wholeUp?: boolean;
}

export const HEADING_px = 24;
export const FOOT_px = 42;

export const panelHeight_px = ({ height_px, foot }: Panel): number => HEADING_px + height_px + (foot ? FOOT_px : 8);

/** Where values of an axis stand. */
export const along = ({ range: [from, to], units }: Axis, pixels: readonly [number, number]) =>
  scaleLinear([shownIn(from, units), shownIn(to, units)], [...pixels]).clamp(true);

/** The panel with its top edge, heading included, at `top`. */
export function panel(spec: Panel, sheet: Sheet, top: number): string {
  const box = {
    left: sheet.left_px,
    right: plotRight_px(sheet),
    top: top + HEADING_px,
    foot: top + HEADING_px + spec.height_px,
  };
  const x = along(spec.x, [box.left, box.right]);
  const y = along(spec.y, [box.foot, box.top]);
  const at = (line: Line): Point[] =>
    line.x.map((each, i) => [x(shownIn(each, spec.x.units)), y(shownIn(line.y[i] ?? Number.NaN, spec.y.units))]);
  const drawn = spec.lines.map((line) => {
    const points = at(line);
    return {
      ...line,
      points: line.dots ? points : split(points).flatMap((piece) => [...straightened(thinned(piece)), GAP]),
    };
  });
  const sides = ({ x: across = spec.x.range, y: up }: Shade): Box => ({
    left: x(shownIn(across[0], spec.x.units)),
    right: x(shownIn(across[1], spec.x.units)),
    foot: y(shownIn(up[0], spec.y.units)),
    top: y(shownIn(up[1], spec.y.units)),
  });
  const sideOf = ({ edge, y: up }: Shade) => edge ?? (up[0] > spec.y.range[0] ? "foot" : "head");
  const shade = (each: Shade): string => {
    const { name, fill = "#bbb" } = each;
    const { left, right, foot, top: head } = sides(each);
    if (foot - head < 0.5) return "";
    const area = tag("rect", {
      x: left,
      y: head,
      width: right - left,
      height: foot - head,
      fill,
      "fill-opacity": "0.35",
      "data-shade": name,
    });
    const edge = sideOf(each) === "foot" ? foot : head;
    return (
      area + tag("path", { d: `M${tenth(left)} ${tenth(edge)}H${tenth(right)}`, stroke: QUIET, "stroke-width": 0.8 })
    );
  };
  const posts = apartBy(
    POSTS_px,
    (spec.posts ?? []).map((each) => x(shownIn(each, spec.x.units))),
  );
  return tag(
    "g",
    { "data-panel": spec.name },
    [
      heading(spec, sheet, top),
      ...(spec.shades ?? []).map(shade),
      leftFigures(spec, sheet, y, box),
      rightFigures(spec, sheet, box),
      posts.length === 0
        ? ""
        : tag("path", {
            d: posts.map((each) => `M${tenth(each)} ${box.top}V${box.foot}`).join(""),
            stroke: "#999",
            "stroke-width": 0.7,
            "stroke-dasharray": "1 3",
          }),
      spec.foot ? footFigures(spec, sheet, box.foot) : "",
      tag("path", {
        d: `M${box.left} ${box.top}V${box.foot}H${box.right}V${box.top}`,
        fill: "none",
        stroke: "#000",
        "stroke-width": 0.8,
      }),
      ...drawn.map(lineOf),
      ...labelled(
        drawn,
        (spec.shades ?? []).map((each) => ({ label: each.label ?? "", box: sides(each), edge: each.edge })),
        sheet,
        box,
      ),
    ].join(""),
  );
}

function heading({ y: { quantity, units } }: Panel, sheet: Sheet, top: number): string {
  const at = top + 14;
  const left = words(2, at, `${quantity}, ${units.unit}`, { "font-weight": "bold" });
  return units.other
    ? left + words(sheet.width_px - 2, at, units.other.unit, { "text-anchor": "end", "font-weight": "bold" })
    : left;
}

const APART = { x: 70, y: 34 } as const;

type Scale = ReturnType<typeof along>;

/** Closer than this, the lines of named posts would be one grey area. */
const POSTS_px = 8;

/** Of places from left to right, those that stand clear of the one kept before. */
function apartBy(least: number, places_px: readonly number[]): number[] {
  let last = Number.NEGATIVE_INFINITY;
  return places_px.filter((each) => {
    if (each - last < least) return false;
    last = each;
    return true;
  });
}

const ticksOf = (scale: Scale, pixels: number, apart: number): number[] =>
  scale.ticks(Math.max(2, Math.floor(pixels / apart)));

const figure = (value: number): string => (Math.round(1000 * value) / 1000).toString().replace("-", "−");

function leftFigures(
  { height_px, wholeUp = false }: Panel,
  { left_px }: Sheet,
  y: Scale,
  { left, right }: Box,
): string {
  return ticksOf(y, height_px, APART.y)
    .filter((each) => !wholeUp || Number.isInteger(each))
    .map((each) => {
      const at = y(each);
      const grid = tag("path", { d: `M${left} ${tenth(at)}H${right}`, stroke: "#ddd", "stroke-width": 0.7 });
      return grid + words(left_px - 5, at + 4, figure(each), { "text-anchor": "end", "data-tick": "y" });
    })
    .join("");
}

function rightFigures({ y: axis, height_px }: Panel, _sheet: Sheet, { right, top, foot }: Box): string {
  const { other } = axis.units;
  if (!other) return "";
  const y = along({ ...axis, units: other }, [foot, top]);
  return ticksOf(y, height_px, APART.y)
    .map(
      (each) =>
        tag("path", { d: `M${right} ${tenth(y(each))}h4`, stroke: "#000", "stroke-width": 0.8 }) +
        words(right + 7, y(each) + 4, figure(each), { "data-tick": "y2" }),
    )
    .join("");
}

/** Figures of an axis below `foot`: own units on one line, the other's on the next, each with its unit at the end. */
export function footFigures(
  { x: axis, whole = false }: Pick<Panel, "x" | "whole">,
  sheet: Sheet,
  foot: number,
): string {
  const [left, right] = [sheet.left_px, plotRight_px(sheet)];
  const row = (units: Units, down: number, which: string) => {
    const x = along({ ...axis, units }, [left, right]);
    const ticks = ticksOf(x, plotWidth_px(sheet), APART.x).filter((each) => !whole || Number.isInteger(each));
    const marks = ticks.map(
      (each) =>
        tag("path", { d: `M${tenth(x(each))} ${tenth(foot + down - 15)}v4`, stroke: "#000", "stroke-width": 0.8 }) +
        words(x(each), foot + down, figure(each), { "text-anchor": "middle", "data-tick": which }),
    );
    const beside = textWidth_px(units.unit, sheet.font_px) < left - 14;
    const unit = beside
      ? words(2, foot + down, units.unit, { "font-weight": "bold" })
      : words(right, foot + down + 15, units.unit, { "text-anchor": "end", "font-weight": "bold" });
    return marks.join("") + unit;
  };
  return row(axis.units, 16, "x") + (axis.units.other ? row(axis.units.other, 32, "x2") : "");
}

/** Between the pieces of a line. */
const GAP: Point = [Number.NaN, Number.NaN];

type Drawn = Line & { points: readonly Point[] };

function lineOf({ name, ink, points, dots }: Drawn): string {
  const pieces = split(points);
  const d = pieces
    .map((piece) => piece.map(([x, y], i) => `${i === 0 ? "M" : "L"}${tenth(x)} ${tenth(y)}`).join(""))
    .join("");
  const width = ink.width ?? 2;
  const stroke = { d, fill: "none", "stroke-linejoin": "round" };
  const edge = ink.edged
    ? tag("path", { ...stroke, stroke: "#000", "stroke-width": width + 1.8, "stroke-dasharray": ink.dash })
    : "";
  const marks = dots
    ? points
        .filter((point) => point.every(Number.isFinite))
        .map(([cx, cy]) => tag("circle", { cx, cy, r: 3.2, fill: ink.colour, stroke: "#000", "stroke-width": 0.7 }))
        .join("")
    : "";
  return (
    edge +
    tag("path", {
      ...stroke,
      stroke: ink.colour,
      "stroke-width": width,
      "stroke-dasharray": ink.dash,
      "data-line": name,
    }) +
    marks
  );
}

/** The pieces between gaps. */
function split(points: readonly Point[]): Point[][] {
  const pieces: Point[][] = [[]];
  for (const point of points) {
    if (Number.isFinite(point[1])) pieces.at(-1)!.push(point);
    else if (pieces.at(-1)!.length > 0) pieces.push([]);
  }
  return pieces.filter((piece) => piece.length > 0);
}

/** From 0, or below it where the values go there, to what they reach and a little more. */
export function fromZero(values: readonly number[], ...also: readonly number[]): [number, number] {
  const [least, most] = extent([0, ...values, ...also].filter(Number.isFinite));
  return [least * 1.06, most > least ? most * 1.06 : 1];
}

/** The room values take, at least `least` of it, in which small changes of no account do not look large. */
export function about(values: readonly number[], least: number): [number, number] {
  const [low, high] = values.length > 0 ? extent(values) : [0, 0];
  const spare = Math.max(0.06 * (high - low), (least - (high - low)) / 2);
  return [low - spare, high + spare];
}
