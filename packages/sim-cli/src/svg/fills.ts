import { tag, tenth } from "./draw.js";
import { luminance } from "./ink.js";

/** How a part of a bar is filled: its colour, and lines across it or up it. */
export interface Fill {
  colour: string;
  lines?: "across" | "up";
}

/**
 * Of the set that `INKS` are of, eight colours without white; lines make twelve fills of them. In grey too each is told
 * from its neighbours, and from all others with such lines as its own: by 0.1 of relative luminance or more.
 */
export const FILLS: readonly Fill[] = [
  { colour: "#0072B2" },
  { colour: "#F0E442" },
  { colour: "#D55E00", lines: "across" },
  { colour: "#56B4E9", lines: "up" },
  { colour: "#009E73" },
  { colour: "#E69F00" },
  { colour: "#000000" },
  { colour: "#CC79A7", lines: "up" },
  { colour: "#F0E442", lines: "across" },
  { colour: "#0072B2", lines: "up" },
  { colour: "#F0E442", lines: "up" },
  { colour: "#000000", lines: "across" },
];

/** Where a fill goes. */
export interface Block {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Between its lines; and they end short of its edge. */
const APART_px = 4;
const EDGE_px = 0.7;

/** Legible on a fill: what is written on it, and the lines of its own. */
export const inkOn = ({ colour }: Fill): string => (luminance(colour) > 0.18 ? "#000" : "#fff");

/** @param attributes of the block itself: its edge, its name */
export function filled(fill: Fill, block: Block, attributes: Record<string, string | number>): string {
  const { x, y, width, height } = block;
  const area = tag("rect", { ...block, fill: fill.colour, ...attributes });
  if (!fill.lines) return area;
  const [across, room] = [fill.lines === "across", fill.lines === "across" ? height : width];
  const lines = Array.from({ length: Math.floor((room - 1) / APART_px) }, (_, i) => {
    const in_px = (i + 1) * APART_px - 1;
    return across
      ? `M${tenth(x + EDGE_px)} ${tenth(y + in_px)}h${tenth(Math.max(0, width - 2 * EDGE_px))}`
      : `M${tenth(x + in_px)} ${tenth(y + EDGE_px)}v${tenth(height - 2 * EDGE_px)}`;
  });
  return area + tag("path", { d: lines.join(""), stroke: inkOn(fill), "stroke-width": 0.8 });
}
