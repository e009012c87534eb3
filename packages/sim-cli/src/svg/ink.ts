/** How a line is drawn: told from every other of its panel by dash, by luminance and by its name beside it. */
export interface Ink {
  colour: string;
  dash?: string;
  width?: number;
  /** Drawn under a black edge: too pale to stand on white. */
  edged?: boolean;
}

/**
 * Colours that colour-blind readers can tell apart: Okabe and Ito, "Color Universal Design", 2008, and white in a black
 * edge. Relative luminances (WCAG 2) 0, 0.22, 0.74 and 1: the set has no four that are 0.2 apart without white.
 */
export const INKS = [
  { colour: "#000000" },
  { colour: "#D55E00", dash: "7 3" },
  { colour: "#F0E442", dash: "12 3 3 3", width: 2.4, edged: true },
  { colour: "#FFFFFF", dash: "3 3", width: 2.4, edged: true },
] as const satisfies readonly Ink[];

/** The files' own line, behind what a control was moved to. */
export const GHOST: Ink = { colour: "#777777", dash: "1 3", width: 1.6 };

/** What nine in ten lie within. */
export const BAND: Ink = { colour: "#777777", width: 5 };

/** Relative luminance by WCAG 2, from 0 for black to 1 for white. */
export function luminance(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
