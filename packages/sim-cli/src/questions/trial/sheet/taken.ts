import type { TrialTold } from "../told.js";
import { bandWords, expectedWords, readingValue } from "../units.js";

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
export const takenWords = ({ answer, eyes }: TrialTold): TakenWords[] =>
  (answer.taken ?? []).map((each) => ({
    reading: each.reading,
    read: readingValue(each.read, each.unit, eyes),
    expected: expectedWords(each, eyes),
    band: bandWords(each, eyes),
    outside: each.outside,
  }));
