import type { SheetReading } from "@rideon/sim-core";
import { type FaultTable, faultTables } from "./trial.faults.words.js";
import { howOf } from "./trial.how.words.js";
import { checksOf, safetyWords } from "./trial.safety.words.js";
import { cautionOf, TITLE } from "./trial.steps.words.js";
import { type TakenWords, takenWords } from "./trial.taken.words.js";
import type { TrialTold } from "./trial.told.js";
import { asMarked, bandWords, expectedWords, readingValue } from "./trial.units.words.js";

/** The sheet in words, for paper and terminal alike. */
export interface SheetWords {
  safety: string[];
  meters: string;
  bands: string;
  steps: StepWords[];
  faults: FaultTable[];
  afterwards: string;
}

export interface StepWords {
  title: string;
  caution: string;
  how: string;
  /** To be ticked off; no numbers. */
  checks: string[];
  readings: ReadingWords[];
}

export interface ReadingWords {
  reading: string;
  /** What to read, with the figures as the instrument is marked where these differ. */
  what: string;
  expected: string;
  /** "" for yes and no. */
  band: string;
  yesOrNo: boolean;
  /** What was read, where a filled sheet has it. */
  read: TakenWords | undefined;
}

export function sheetWords(told: TrialTold): SheetWords {
  // A step with nothing to read has nothing to be done, but for what is ticked off.
  const taken = new Map(takenWords(told).map((each) => [each.reading, each]));
  const steps = told.answer.steps
    .map((step) => ({ step, checks: checksOf(told, step) }))
    .filter(({ step, checks }) => step.readings.length > 0 || checks.length > 0);
  return {
    safety: safetyWords(told),
    meters: METERS,
    bands: BANDS,
    steps: steps.map(({ step, checks }, i) => ({
      title: `${i + 1}. ${TITLE[step.step]}`,
      caution: cautionOf(told, step.step),
      how: howOf(told, step),
      checks,
      readings: step.readings.map((each) => ({ ...readingWords(each, told), read: taken.get(each.reading) })),
    })),
    faults: faultTables(told),
    afterwards: AFTERWARDS,
  };
}

const METERS =
  "Wanted: a voltmeter, a clamp ammeter that reads direct current, a spring balance, a tape, a watch, a steel rule, a level and straight edge, a thermometer, chalk. What cannot be read is left blank.";

const BANDS =
  "Between: nineteen sound locos in twenty read there. The bands come from how well each figure of the files is known and how well such instruments read (common practice, no source), so one reading in twenty a little outside means nothing.";

const AFTERWARDS =
  "A reading well outside: stop, and see below what it could be. Then write all readings with their units into a file (reading,value,note; --out FOLDER writes one to fill in, sheet.csv) and run rideon trial --readings FILE: it ranks the causes and names the reading to take next.";

function readingWords(reading: SheetReading, { eyes }: TrialTold): Omit<ReadingWords, "read"> {
  const marked = asMarked(reading, eyes);
  const what = reading.what.replace(/(\d+\.\d+) m\/s/, (_, value_mps) => readingValue(Number(value_mps), "m/s", eyes));
  return {
    reading: reading.reading,
    what: marked === "" ? what : `${what} (${marked})`,
    expected: expectedWords(reading, eyes),
    band: bandWords(reading, eyes),
    yesOrNo: reading.unit === "yes/no",
  };
}
