import { figures, formatGradient, formatPercent, type SizeUnit } from "@rideon/sim-core";
import type { Eyes } from "./eyes.js";

/** A size and between what it lies, in people's units: `about 70 N (55 to 90 N)`. */
export function aboutSize(size: number, low: number | null, high: number | null, unit: SizeUnit, eyes: Eyes): string {
  const about = `about ${sizeWords(size, unit, eyes)}`;
  if (low === null || high === null) return about;
  const [from, to] = [sizeWords(low, unit, eyes), sizeWords(high, unit, eyes)];
  return from === to ? about : `${about} (${from} to ${to})`;
}

export function sizeWords(size: number, unit: SizeUnit, eyes: Eyes): string {
  switch (unit) {
    case "N":
      return eyes.of(roughly(size), "force");
    case "V":
      return eyes.of(roughly(size), "voltage");
    case "A":
      return eyes.of(roughly(size), "current");
    case "ohm":
      return eyes.of(roughly(size), "resistance");
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
