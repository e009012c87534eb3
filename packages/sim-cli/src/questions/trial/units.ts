import { format, quantity, type ReadingUnit, type SheetReading } from "@rideon/sim-core";
import type { Eyes } from "../../words/eyes.js";

/** How a reading's values are told: the unit, its size in the sheet's own, and how fine people read it. */
interface Shown {
  unit: string;
  size: number;
  decimals: number;
}

const METRIC: Readonly<Record<Exclude<ReadingUnit, "yes/no">, Shown>> = {
  V: { unit: "V", size: 1, decimals: 2 },
  A: { unit: "A", size: 1, decimals: 1 },
  N: { unit: "N", size: 1, decimals: 0 },
  "m/s": { unit: "m/s", size: 1, decimals: 2 },
  m: { unit: "m", size: 1, decimals: 1 },
  mm: { unit: "mm", size: 1, decimals: 0 },
  s: { unit: "s", size: 1, decimals: 1 },
  rpm: { unit: "rpm", size: 1, decimals: 0 },
  turns: { unit: "turns", size: 1, decimals: 2 },
  "°C": { unit: "°C", size: 1, decimals: 0 },
};

const FOOT_m = quantity("1 ft", "length");
/** What a balance marked in kilograms shows for a newton is one over this. */
export const KILOGRAM_N = quantity("1 kgf", "force");
const MPH: Shown = { unit: "mph", size: quantity("1 mph", "speed"), decimals: 1 };
const IMPERIAL: Readonly<Partial<Record<ReadingUnit, Shown>>> = {
  N: { unit: "lbf", size: quantity("1 lbf", "force"), decimals: 1 },
  m: { unit: "ft", size: FOOT_m, decimals: 0 },
};

/** Speeds in the units of the files; everything else metric unless imperial is asked for, as in every answer. */
function shownIn(unit: Exclude<ReadingUnit, "yes/no">, eyes: Eyes): Shown {
  if (unit === "m/s" && eyes.style === "imperial") return MPH;
  return (eyes.chainageUnit === "ft" ? IMPERIAL[unit] : undefined) ?? METRIC[unit];
}

/** What a reading is written in: `V`, `mph`, `yes or no`. */
export function readingUnit(unit: ReadingUnit, eyes: Eyes): string {
  if (unit === "yes/no") return "yes or no";
  return unit === "°C" && eyes.chainageUnit === "ft" ? "°F" : shownIn(unit, eyes).unit;
}

const digits = (value: number, { size, decimals }: Shown): string => {
  const text = (value / size).toFixed(decimals);
  return /^-0\.?0*$/.test(text) ? text.slice(1) : text;
};

/** A reading's value, `25.30 V`, `yes`; 1 and 0 are yes and no, null is nothing to read. */
export function readingValue(value: number | null, unit: ReadingUnit, eyes: Eyes): string {
  if (value === null) return "nothing";
  if (unit === "yes/no") return value >= 0.5 ? "yes" : "no";
  if (unit === "°C" && eyes.chainageUnit === "ft") return format(Math.round(value), "temperature", "imperial");
  const shown = shownIn(unit, eyes);
  return `${digits(value, shown)} ${shown.unit}`;
}

/** What a sound loco reads: `25.30 V`, `yes`, `either`. */
export function expectedWords({ expected, unit, yes_probability: yes }: SheetReading, eyes: Eyes): string {
  if (yes !== null) return Math.abs(yes - 0.5) < EITHER ? "either" : `${sure(yes) ? "" : "likely "}${expected}`;
  return typeof expected === "number" ? readingValue(expected, unit, eyes) : "nothing";
}

/** Of a yes: closer to even than this it may be either way; as sure as nineteen in twenty it is one. */
const EITHER = 0.25;
const sure = (yes: number): boolean => yes >= 0.95 || yes <= 0.05;

/** `25.04 to 25.56 V`; nothing for yes and no. */
export function bandWords({ low, high, unit }: SheetReading, eyes: Eyes): string {
  if (low === null || high === null || unit === "yes/no") return "";
  if (unit === "°C" && eyes.chainageUnit === "ft")
    return `${readingValue(low, unit, eyes)} to ${readingValue(high, unit, eyes)}`;
  const shown = shownIn(unit, eyes);
  return `${digits(low, shown)} to ${digits(high, shown)} ${shown.unit}`;
}

/** The same as the instrument has it: a balance's marks in kilograms, a watch's seconds over a measured length. */
export function asMarked({ expected, low, high, unit }: SheetReading, eyes: Eyes): string {
  if (typeof expected !== "number" || low === null || high === null) return "";
  if (unit === "N" && eyes.chainageUnit === "m") {
    const [most, from, to] = [expected, low, high].map((value) => (value / KILOGRAM_N).toFixed(1));
    return `in kg ${most}, ${from} to ${to}`;
  }
  if (unit !== "m/s" || !(expected > 0) || !(low > 0)) return "";
  const length_m = eyes.style === "imperial" ? 30 * FOOT_m : 10;
  const [usual, from, to] = [expected, high, low].map((value) => (length_m / value).toFixed(1));
  return `${eyes.style === "imperial" ? "30 ft" : "10 m"} in ${usual} s, ${from} to ${to}`;
}
