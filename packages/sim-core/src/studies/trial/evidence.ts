import { logWidened } from "../../numeric/normal.js";
import type { Book } from "./book.js";
import { onScale, WIDTHS } from "./instruments.js";
import { likelySeen, likelyYes, type Read, spread } from "./likelihood.js";
import type { Prediction } from "./predict.js";
import type { ReadingUnit } from "./readings.kinds.js";

/** One reading that tells two machines apart. */
export interface Evidence {
  reading: string;
  unit: ReadingUnit;
  /** What was read, what this cause has it at, and the other one; 1 and 0 are yes and no, null is nothing to read. */
  read: number;
  this_cause: number | null;
  other: number | null;
  /** How much more likely this cause makes it, as a logarithm to base 2. */
  bits: number;
}

/** Less than this is not worth telling (twice as likely), nor is more than so many readings: no source. */
const TELLING_bits = 1;
const TOLD = 3;

/** The readings that one prediction has much better than another, the most telling first. */
export function evidenceFor(book: Book, mine: Prediction, other: Prediction, read: readonly Read[]): Evidence[] {
  return read
    .map((each): Evidence => {
      const { reading, unit } = book.readings[each.at];
      const bits = (alone(book, mine, each) - alone(book, other, each)) / Math.LN2;
      const value = { read: each.value, this_cause: told(book, mine, each.at), other: told(book, other, each.at) };
      return { reading, unit, ...value, bits };
    })
    .filter(({ bits }) => bits >= TELLING_bits)
    .sort((a, b) => b.bits - a.bits)
    .slice(0, TOLD);
}

/** Nothing to read where something was read: as unlikely as this many standard deviations (no source). */
const NOTHING_sd = 4;

/** Log likelihood of one reading by itself. */
function alone(book: Book, prediction: Prediction, read: Read): number {
  const { at, value } = read;
  const predicted = prediction.scaled[at];
  const { instrument, unit } = book.readings[at];
  if (unit === "yes/no") return Math.log(likelySeen(book, prediction, read));
  if (predicted === null) return logWidened(NOTHING_sd, 1, WIDTHS) - Math.log(spread(book.sound, at) || 1);
  return logWidened(onScale(instrument, value) - predicted, spread(prediction, at), WIDTHS);
}

/** A predicted value as it is told: 1 or 0 for yes and no. */
export function told(book: Book, prediction: Prediction, at: number): number | null {
  const value = prediction.values[at];
  if (value === null || book.readings[at].unit !== "yes/no") return value;
  return likelyYes(prediction, at) >= 0.5 ? 1 : 0;
}
