import { formatGradient } from "@rideon/sim-core";
import { type LineStrip, stripOf } from "../charts/line-strip.js";
import type { Picture } from "../charts/picture.js";
import { extent } from "../ground/extent.js";
import { HALO, plotRight_px, type Sheet, short, textWidth_px, words } from "./draw.js";
import { INKS } from "./ink.js";
import { type Axis, about, along, type Panel, panel, panelHeight_px } from "./panel.js";
import type { Seen } from "./parts.js";
import { shownIn } from "./units.js";

/** The line as the train meets it: names, heights, gradients. Other panels stand on its scale. */
export interface Profile {
  strip: LineStrip;
  x: Axis;
  /** Where the named places are. */
  posts: number[];
  height_px: number;
  body: string;
}

const ROW_px = 15;
const MOST_ROWS = 4;
const SLOPES_px = 16;
/** A line that rises less is not drawn as a mountain range, m. */
const LEAST_RISE_m = 0.8;

/** From its top edge at 0. */
export function profile({ plan, units }: Seen, picture: Picture, sheet: Sheet): Profile {
  const strip = stripOf(plan, picture);
  const x: Axis = { quantity: "", units: units.length, range: [0, strip.length_m] };
  const at = pixels(x, sheet);
  const names = placeNames(strip, at, sheet);
  const posts = strip.places.map(({ run_m }) => run_m);
  const spec: Panel = {
    name: "profile",
    height_px: 60,
    x,
    y: { quantity: "Height", units: units.length, range: about(strip.height_m, LEAST_RISE_m) },
    lines: [{ name: "rail", ink: INKS[0], x: strip.run_m, y: strip.height_m }],
    posts,
  };
  const slopesAt = names.height_px + panelHeight_px(spec);
  return {
    strip,
    x,
    posts,
    height_px: slopesAt + SLOPES_px,
    body: names.body + panel(spec, sheet, names.height_px) + slopes(strip, at, slopesAt + 4, sheet),
  };
}

export function lineInWords({ eyes, plan }: Seen, { length_m, height_m }: LineStrip): string {
  const [lowest_m, highest_m] = extent(height_m);
  const kind = plan.track.kind === "circuit" ? "Once round is" : "There and back is";
  return `${kind} ${eyes.length(length_m)}; the highest point lies ${eyes.length(highest_m - lowest_m)} above the lowest. Heights are drawn far steeper than they are.`;
}

export const pixels = (x: Axis, sheet: Sheet) => {
  const scale = along(x, [sheet.left_px, plotRight_px(sheet)]);
  return (run_m: number): number => scale(shownIn(run_m, x.units));
};
type Pixels = ReturnType<typeof pixels>;

/** Every name once, on the first row that has room; where none has, it is left out. */
function placeNames({ places }: LineStrip, at: Pixels, sheet: Sheet): { body: string; height_px: number } {
  const ends: number[] = [];
  const drawn = places.map(({ run_m, name }) => {
    const text = short(name, 22);
    const width = textWidth_px(text, sheet.font_px);
    const x = Math.max(2, Math.min(at(run_m), sheet.width_px - width - 2));
    const free = ends.findIndex((end) => end + 8 < x);
    const row = free >= 0 ? free : ends.length;
    if (row >= MOST_ROWS) return "";
    ends[row] = x + width;
    return words(x, 12 + row * ROW_px, text, { "data-place": name });
  });
  return { body: drawn.join(""), height_px: ends.length === 0 ? 0 : 4 + ends.length * ROW_px };
}

const SAME_percent = 1e-6;

/** `↗ 1 in 71` under every stretch that has room for it, `↗71` or `↗` where there is less. */
function slopes({ run_m, gradient_percent }: LineStrip, at: Pixels, top: number, sheet: Sheet): string {
  const marks: string[] = [];
  for (let from = 0, to = 1; from < run_m.length - 1; from = to, to++) {
    while (to < run_m.length - 1 && Math.abs(gradient_percent[to]! - gradient_percent[from]!) < SAME_percent) to++;
    const [left, right] = [at(run_m[from]!), at(run_m[to]!)];
    const size = 0.9 * sheet.font_px;
    const text = slopeWords(gradient_percent[from]!).find((each) => textWidth_px(each, size) < right - left - 2) ?? "";
    marks.push(words((left + right) / 2, top + 9, text, { "text-anchor": "middle", "font-size": size, ...HALO }));
  }
  return marks.join("");
}

function slopeWords(percent: number): string[] {
  const slope = formatGradient(Math.abs(percent) / 100);
  if (slope === "level") return ["level", "–"];
  const arrow = percent > 0 ? "↗" : "↘";
  return [`${arrow} ${slope}`, `${arrow}${slope.replace("1 in ", "")}`, arrow];
}
