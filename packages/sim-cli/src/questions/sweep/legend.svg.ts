import { type Sheet, short, tag, textWidth_px, words } from "../../svg/draw.js";

/** What a mark or a colour of a picture means. */
export interface Entry {
  /** The mark in a box of `MARK_px`, whose upper left corner is at a point. */
  mark(x: number, y: number): string;
  text: string;
}

export const MARK_px = 14;
const LINE_px = 20;
const APART_px = 16;

/** Entries one after another, as many lines as they take. */
export function legend(entries: readonly Entry[], sheet: Sheet, top: number): { body: string; height_px: number } {
  let [x, y] = [4, top];
  const body = entries.map(({ mark, text }) => {
    const told = short(text, Math.floor((sheet.width_px - MARK_px - 16) / textWidth_px("x", sheet.font_px)));
    const width = MARK_px + 5 + textWidth_px(told, sheet.font_px);
    if (x > 4 && x + width > sheet.width_px - 4) [x, y] = [4, y + LINE_px];
    const drawn = mark(x, y) + words(x + MARK_px + 5, y + MARK_px - 3, told, { "data-legend": told });
    x += width + APART_px;
    return drawn;
  });
  return { body: body.join(""), height_px: entries.length === 0 ? 0 : y - top + LINE_px };
}

/** A cross: a case that has no figure. */
export const cross = (x: number, y: number, size_px = 8): string =>
  tag("path", {
    d: [
      `M${tenths(x - size_px / 2)} ${tenths(y - size_px / 2)}l${size_px} ${size_px}`,
      `m0 ${-size_px}l${-size_px} ${size_px}`,
    ].join(""),
    stroke: "#000",
    "stroke-width": 1.6,
    fill: "none",
  });

const tenths = (value: number): number => Math.round(10 * value) / 10;
