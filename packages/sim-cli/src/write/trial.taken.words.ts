import type { TrialTold } from "./trial.told.js";
import { bandWords, expectedWords, readingValue } from "./trial.units.words.js";

/** What was read, beside what should be. */
export interface TakenWords {
  reading: string;
  read: string;
  expected: string;
  band: string;
  /** Is it outside where nineteen sound locos in twenty read, or not the yes or no that they have? */
  outside: boolean;
}

/** In the order of the sheet. */
export function takenWords({ answer, filled, eyes }: TrialTold): TakenWords[] {
  const values = new Map(filled?.taken.map(({ reading, value }) => [reading, value]));
  return answer.steps.flatMap(({ readings }) =>
    readings.flatMap((each) => {
      const value = values.get(each.reading);
      if (value === undefined) return [];
      const { low, high, unit, reading, yes_probability: yes } = each;
      const outside =
        yes !== null
          ? (value === 1 ? yes : 1 - yes) < SELDOM
          : low !== null && high !== null && (value < low || value > high);
      const [expected, band] = [expectedWords(each, eyes), bandWords(each, eyes)];
      return [{ reading, read: readingValue(value, unit, eyes), expected, band, outside }];
    }),
  );
}

/** One sound loco in twenty. */
const SELDOM = 0.05;
