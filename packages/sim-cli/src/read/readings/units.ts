import { type Dimension, quantity, type ReadingUnit, UnitError } from "@rideon/sim-core";
import { quotedCell } from "../csv/csv.js";

/** A value that is none of its reading; the message says why. */
export class ReadingError extends Error {}

/** How a reading is typed, and its size in SI. */
interface Written {
  dimension: Dimension;
  /** One of the sheet's unit in SI. */
  size: number;
  example: string;
  /** Can it be below nothing? */
  signed?: boolean;
}

const WRITTEN: Readonly<Record<Exclude<ReadingUnit, "turns" | "yes/no">, Written>> = {
  V: { dimension: "voltage", size: 1, example: "25.3 V", signed: true },
  A: { dimension: "current", size: 1, example: "14 A", signed: true },
  N: { dimension: "force", size: 1, example: "60 N, 6.1 kg or 13 lb" },
  "m/s": { dimension: "speed", size: 1, example: "1.8 m/s, 4 mph or 10 m in 5.6 s" },
  m: { dimension: "length", size: 1, example: "9.7 m or 32 ft" },
  mm: { dimension: "length", size: 1e-3, example: "170 mm or 6 3/4 in", signed: true },
  s: { dimension: "time", size: 1, example: "18 s" },
  rpm: { dimension: "shaft_speed", size: quantity("1 rpm", "shaft_speed"), example: "210 rpm" },
  "°C": { dimension: "temperature", size: 1, example: "45 °C", signed: true },
};

/**
 * What was read, in the sheet's unit; 1 for yes and 0 for no. A spring balance may be read by its marks in kilograms or
 * pounds, a speed as a distance and the time it took.
 * @param reading its name: of millimetres only a rise may be below nothing
 * @throws ReadingError
 */
export function readingIn(text: string, reading: string, unit: ReadingUnit, units: UnitWords = {}): ReadValue {
  if (unit === "yes/no") return { value: yesIn(text) };
  if (unit === "turns") return { value: notBelow(turnsIn(text), text) };
  if (unit === "rpm" && bare(text) !== undefined) return { value: Number(text) };
  const counted = unit === "rpm" ? countedIn(text) : undefined;
  if (counted !== undefined) return { value: counted };
  const written = WRITTEN[unit];
  const own = units[unit] ?? unit;
  const isBare = bare(text.replace(/^[-+\u2212]/, "")) !== undefined;
  const value = measured(isBare ? `${text} ${own}` : text, unit, written);
  const taken = isBare ? `${quotedCell(text)} is taken as ${text} ${own}` : undefined;
  if (value < 0 && METER[unit]) {
    const turned = `${quotedCell(text)} is taken without its sign: ${METER[unit]}`;
    return { value: -value, remark: taken ? `${taken}; ${turned}` : turned };
  }
  const signed = written.signed && (unit !== "mm" || reading.endsWith("_rise"));
  return { value: signed || reading === "wind" ? value : notBelow(value, text), remark: taken };
}

/** What bare numbers are in, where that is not the unit's own name: mph for m/s. */
export type UnitWords = Partial<Record<ReadingUnit, string>>;

/** A value in the sheet's unit, and what was taken for granted in reading it. */
export interface ReadValue {
  value: number;
  remark?: string | undefined;
}

/** A meter that reads below nothing is on the wrong way round; which way the current goes, the wheels show. */
const METER: Partial<Record<ReadingUnit, string>> = {
  V: "the probes were the wrong way round. If the red one was on the post marked +, a battery or a lead is crossed: stop, isolator open, and look",
  A: "the clamp was the wrong way round",
};

/** Is it said that nothing moved, where yes or no was asked? */
export const isNothing = (text: string): boolean =>
  /^((it )?(did not|didn't|does not|doesn't) (move|turn)( at all)?|nothing|neither|stood|stands)$/i.test(text);

/** `120 in half a minute`, `40 turns in 10 s`: turns a minute. */
function countedIn(text: string): number | undefined {
  const [, turns, time] = /^(\d+\.?\d*)\s*(?:turns?)?\s+in\s+(.+)$/i.exec(text) ?? [];
  if (!turns || !time) return undefined;
  const spelt = time.replace(/^(?:a )?half (?:a )?min(?:ute)?$/i, "30 s").replace(/^(?:a|one) min(?:ute)?$/i, "60 s");
  return (60 * Number(turns)) / timeIn(spelt, "120 in half a minute or 40 turns in 10 s");
}

function yesIn(text: string): number {
  if (/^(yes|y|true)$/i.test(text)) return 1;
  if (/^(no|n|false)$/i.test(text)) return 0;
  throw new ReadingError(`${quotedCell(text)} is neither yes nor no`);
}

function turnsIn(text: string): number {
  const value = bare(text.replace(/\s*turns?$/i, ""));
  if (value !== undefined) return value;
  throw new ReadingError(`${quotedCell(text)} is not a number of turns; write it like 12.7`);
}

const bare = (text: string): number | undefined => (/^(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : undefined);

function notBelow(value: number, text: string): number {
  if (value >= 0) return value;
  throw new ReadingError(`${quotedCell(text)} is below nothing`);
}

/** Weight of a kilogram, which a balance may be marked in, N. */
const KILOGRAM_N = quantity("1 kgf", "force");

function measured(text: string, unit: ReadingUnit, { dimension, size, example }: Written): number {
  const [, distance, time] = (unit === "m/s" && /^(.+?)\s+in\s+(.+)$/i.exec(text)) || [];
  try {
    if (distance && time) return quantity(distance, "length", example) / timeIn(time, example);
    if (unit === "N" && isMass(text)) return KILOGRAM_N * quantity(text, "mass", example);
    return quantity(text, dimension, example) / size;
  } catch (error) {
    throw error instanceof UnitError ? new ReadingError(error.message) : error;
  }
}

function timeIn(text: string, example: string): number {
  const time_s = quantity(text, "time", example);
  if (time_s > 0) return time_s;
  throw new UnitError(`${quotedCell(text)} is no time to run anywhere in; write it like ${example}`);
}

function isMass(text: string): boolean {
  try {
    quantity(text, "mass");
    return true;
  } catch (error) {
    if (error instanceof UnitError) return false;
    throw error;
  }
}
