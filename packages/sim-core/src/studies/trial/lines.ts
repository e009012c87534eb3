import { BAND, errorOnScale, offScale, onScale, type Tool } from "./instruments.js";
import { likelyYes } from "./likelihood.js";
import type { Ground, Workings } from "./predict.js";
import type { ReadingUnit } from "./readings.kinds.js";

/** A line of the sheet. */
export interface SheetReading {
  reading: string;
  what: string;
  unit: ReadingUnit;
  /** A number, or yes or no; null where there is nothing to read on this loco. */
  expected: number | "yes" | "no" | null;
  /** Nineteen sound locos in twenty read between these; null for yes and no. */
  low: number | null;
  high: number | null;
  /** How likely a yes is; null for numbers. */
  yes_probability: number | null;
  /** What it is read with; null for one's own eyes. */
  instrument: string | null;
  /** What of the box that takes. */
  tools: readonly Tool[];
  /** What else may be answered where a no could be taken for it, and which reading that is a no of; null where nothing may. */
  or_else: { answer: string; reading: string } | null;
}

/** A line of the sheet as a sound loco reads it. */
export function lineOf({ readings }: Pick<Ground, "readings">, sound: Workings, r: number): SheetReading {
  const { reading, what, unit, instrument, misread, instead } = readings[r];
  const value = sound.values[r];
  const about = { reading, what, unit, instrument: instrument?.name ?? null };
  const how = { tools: instrument?.tools ?? [], or_else: instead ? { ...instead } : null };
  const nothing = { ...how, expected: null, low: null, high: null, yes_probability: null };
  if (unit === "yes/no") {
    const yes = likelyYes(sound, r, misread);
    return { ...about, ...nothing, expected: yes >= 0.5 ? "yes" : "no", yes_probability: yes };
  }
  if (value === null) return { ...about, ...nothing };
  const scaled = onScale(instrument, value);
  const error = errorOnScale(instrument, value);
  const off = (variance: number) => BAND * Math.sqrt(variance + error ** 2);
  // A pull, a current, a distance is never below nothing.
  const least = unit === "°C" || reading.endsWith("_rise") ? Number.NEGATIVE_INFINITY : 0;
  const low = Math.max(least, offScale(instrument, scaled - off(sound.lowered[r])));
  return { ...about, ...nothing, expected: value, low, high: offScale(instrument, scaled + off(sound.raised[r])) };
}

/** One sound loco in twenty. */
const SELDOM = 0.05;

/** Does a value lie where only one sound loco in twenty reads? */
export function isOutside({ low, high, yes_probability: yes }: SheetReading, value: number): boolean {
  if (yes !== null) return (value === 1 ? yes : 1 - yes) <= SELDOM;
  return low !== null && high !== null && (value < low || value > high);
}
