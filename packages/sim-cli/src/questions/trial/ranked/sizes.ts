import { figures, formatGradient, formatPercent, type SizeUnit } from "@rideon/sim-core";
import type { Eyes } from "../../../words/eyes.js";

/** A size and between what it lies, in people's units: `about 70 N (55 to 90 N)`. */
export const aboutSize = (size: number, low: Known, high: Known, unit: SizeUnit, eyes: Eyes): string =>
  about(size, low, high, (value) => sizeWords(value, unit, eyes));

/** Not known, a size has no range. */
type Known = number | null | undefined;

/** The same, said as the cause has it. */
export const about = (size: number, low: Known, high: Known, say: (size: number) => string): string =>
  `about ${say(size)}${range(low, high, say)}`;

/** ` (55 N to 90 N)`; nothing where that is not known, or both are said the same. */
export function range(low: Known, high: Known, say: (size: number) => string): string {
  if (typeof low !== "number" || typeof high !== "number") return "";
  const [from, to] = [say(low), say(high)];
  return from === to ? "" : ` (${from} to ${to})`;
}

function sizeWords(size: number, unit: SizeUnit, eyes: Eyes): string {
  switch (unit) {
    case "N":
      return eyes.of(roughly(size), "force");
    case "V":
      return eyes.of(roughly(size), "voltage");
    case "A":
      return eyes.of(roughly(size), "current");
    case "ohm":
      return eyes.of(roughly(size), "resistance");
    case "m/s":
      return eyes.speed(roughly(size));
    case "kg":
      return eyes.of(roughly(size), "mass");
    case "share":
      return formatPercent(Math.round(100 * size) / 100);
    case "gradient":
      return formatGradient(roughly(size));
    case "times":
      return `${figures(roughly(size, 3))} times`;
    case "none":
      return "";
  }
}

/** What is fitted is not known to more figures than this. */
const roughly = (value: number, digits = 2): number => Number(value.toPrecision(digits));
