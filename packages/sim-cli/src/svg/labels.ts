import { extent } from "../ground/extent.js";
import { type Box, HALO, type Sheet, textWidth_px, words } from "./draw.js";
import type { Point } from "./thin.js";

/** A line as drawn, with the name it is to have. */
interface Drawn {
  name: string;
  points: readonly Point[];
  bare?: boolean;
}

/** Places tried along a line. */
const TRIES = 24;
const OFF_px = 7;
/** More room than this is as good. */
const FREE_px = 40;
/** A bold letter is so much wider. */
const BOLD = 1.15;
/** Names nearer than so many of their heights touch: that is worse than one on a line, which its halo keeps legible. */
const LINES = 1.25;

/** A shaded part and what is written in it. */
export interface Area {
  label: string;
  box: Box;
  /** The edge that it is to stand at; whichever has more room where absent. */
  edge?: "head" | "foot" | undefined;
}

/** Each line's name beside it, where the other lines and the other names leave it most room. A line alone needs none. */
export function labelled(lines: readonly Drawn[], areas: readonly Area[], sheet: Sheet, box: Box): string[] {
  const { font_px } = sheet;
  const taken: Point[] = [];
  const inside = areas.map((area) => areaName(area, lines, sheet, taken));
  if (lines.length < 2) return inside;
  const named = lines.map((line) => {
    if (line.bare) return "";
    const width = BOLD * textWidth_px(line.name, font_px);
    let best = { room: Number.NEGATIVE_INFINITY, x: box.left, y: box.top };
    for (let i = 0; i <= TRIES; i++) {
      const x = box.left + 4 + (i / TRIES) * Math.max(0, box.right - box.left - 8 - width);
      const own = heightsUnder(line.points, x, x + width);
      if (own.length === 0) continue;
      const [least, most] = extent(own);
      const others = lines.filter((other) => other !== line).map((other) => heightsUnder(other.points, x, x + width));
      const names = taken.filter(([at]) => at > x - width && at < x + width).map(([, at]) => at);
      for (const edge of [least - OFF_px, most + OFF_px + 0.6 * font_px]) {
        const middle = edge - 0.3 * font_px;
        if (middle - 0.6 * font_px < box.top || edge > box.foot - 2) continue;
        const room =
          nearest(middle, FREE_px, [...others, names]) -
          0.02 * Math.abs(most - least) -
          (names.some((at) => Math.abs(at - middle) < LINES * font_px) ? FREE_px : 0);
        if (room > best.room + 0.5) best = { room, x, y: edge };
      }
    }
    if (best.room === Number.NEGATIVE_INFINITY) return "";
    for (let x = best.x; x < best.x + width + 10; x += 10) taken.push([x, best.y - 0.3 * font_px]);
    return words(best.x, best.y, line.name, { ...HALO, "font-weight": 600, "data-label": line.name });
  });
  return [...inside, ...named];
}

/** What is written in a shaded part, at its upper or lower edge, where it stands clearest of the lines. */
function areaName({ label, box, edge }: Area, lines: readonly Drawn[], { font_px }: Sheet, taken: Point[]): string {
  const size = 0.9 * font_px;
  const width = textWidth_px(label, size);
  if (label === "" || box.foot - box.top < size || box.right - box.left < width) return "";
  const [head, foot] = [box.top + size + 1, box.foot - 4];
  const at = edge === "head" ? [head] : edge === "foot" ? [foot] : [head, foot];
  let best = { room: Number.NEGATIVE_INFINITY, x: box.left, y: head };
  for (let i = 0; i <= TRIES; i++) {
    const x = box.left + 4 + (i / TRIES) * Math.max(0, box.right - box.left - 8 - width);
    const others = lines.map((line) => heightsUnder(line.points, x, x + width));
    const names = taken.filter(([at]) => at > x - width && at < x + width).map(([, at]) => at);
    for (const y of at) {
      const room = nearest(y - 0.3 * size, 2 * size, [...others, names]);
      if (room > best.room + 0.5) best = { room, x, y };
    }
  }
  for (let x = best.x; x < best.x + width + 10; x += 10) taken.push([x, best.y - 0.3 * size]);
  return words(best.x, best.y, label, { ...HALO, "font-size": size });
}

/** How far the nearest of some heights is from this one; no farther than counts. */
function nearest(height: number, counts: number, others: readonly (readonly number[])[]): number {
  let least = counts;
  for (const heights of others) {
    for (let i = 0; i < heights.length; i++) least = Math.min(least, Math.abs(heights[i]! - height));
  }
  return least;
}

/** Heights of a line between two places, ends worked out between its points. */
function heightsUnder(points: readonly Point[], from: number, to: number): number[] {
  const heights: number[] = [];
  const between = (edge: number, [x, y]: Point, [nextX, nextY]: Point) => {
    if (x < edge && nextX > edge && Number.isFinite(y + nextY))
      heights.push(y + ((nextY - y) * (edge - x)) / (nextX - x));
  };
  for (let i = 0; i < points.length; i++) {
    const point = points[i]!;
    const x = point[0];
    if (x >= from && x <= to && Number.isFinite(point[1])) heights.push(point[1]);
    // At most two stretches reach over an edge: the others cost no more than a look.
    const next = points[i + 1];
    if (!next || x > to || next[0] < from || (x >= from && next[0] <= to)) continue;
    between(from, point, next);
    between(to, point, next);
  }
  return heights;
}
