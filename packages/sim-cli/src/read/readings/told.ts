import type { Told } from "@rideon/sim-core";
import { quotedCell } from "../csv/csv.js";
import { ReadingError, type ReadValue, readingIn, type UnitWords } from "./units.js";

/** A row that tells how it was on the day, and is no reading: what is not told stays in doubt. */
export interface ToldRow {
  readonly row: string;
  readonly key: keyof Told;
  readonly what: string;
  /** That a bare number is in; a share where there is none. */
  readonly unit?: "m/s" | "m";
  readonly read: (text: string, units: UnitWords) => ReadValue;
}

export const TOLD: readonly ToldRow[] = [
  {
    row: "run_lever",
    key: "lever",
    what: "first run: where the lever stood in fact",
    read: leverIn,
  },
  {
    row: "wind",
    key: "wind_mps",
    what: "wind against the train, from behind with a minus",
    unit: "m/s",
    read: (text, units) => readingIn(text, "wind", "m/s", units),
  },
  {
    row: "run_place",
    key: "place_m",
    what: "first run: chainage of the train's head, if it was not on the level",
    unit: "m",
    read: (text, units) => readingIn(text, "run_place", "m", units),
  },
];

const WORDS: Readonly<Record<string, number>> = { full: 1, half: 0.5, "a quarter": 0.25, quarter: 0.25 };

function leverIn(text: string): ReadValue {
  const [, number, percent] = /^(\d+\.?\d*|\.\d+)\s*(%?)$/.exec(text) ?? [];
  const value =
    WORDS[text.toLowerCase()] ?? (number ? Number(number) / (percent || Number(number) > 1 ? 100 : 1) : Number.NaN);
  if (value > 0 && value <= 1) return { value };
  throw new ReadingError(`${quotedCell(text)} is no place of a lever; write it like 60 %, half or full`);
}
