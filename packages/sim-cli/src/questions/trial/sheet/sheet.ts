import type { SheetReading, SheetStep, StepName, Tool } from "@rideon/sim-core";
import { listed } from "../../../words/lists.js";
import type { TrialTold } from "../told.js";
import { asMarked, bandWords, expectedWords, readingValue } from "../units.js";
import { type FaultTable, faultTables } from "./faults.js";
import { howOf } from "./how.js";
import { shortHowOf } from "./how-short.js";
import { shortLabel } from "./labels.js";
import { checksOf, safetyWords } from "./safety.js";
import { cautionOf, TITLE } from "./steps.js";
import { type StillWords, stillWords } from "./still.js";
import { type TakenWords, takenWords } from "./taken.js";

/** The sheet in words, for paper and terminal alike. */
export interface SheetWords {
  safety: string[];
  meters: string;
  bands: string;
  steps: StepWords[];
  /** What to read, and in which order, when it does not move at all; nothing without a voltmeter. */
  still: StillWords | undefined;
  faults: FaultTable[];
  afterwards: string;
}

export interface StepWords {
  step: StepName;
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
  /** The same in a word or two, under a heading that says the rest. */
  label: string;
  expected: string;
  /** "" for yes and no. */
  band: string;
  yesOrNo: boolean;
  /** What else may be answered; "" where nothing may. */
  orElse: string;
  /** What was read, where a filled sheet has it. */
  read: TakenWords | undefined;
}

export function sheetWords(told: TrialTold): SheetWords {
  // A step with nothing to read has nothing to be done, but for what is ticked off.
  const taken = new Map(takenWords(told).map((each) => [each.reading, each]));
  // What is ticked off before the first power stands on every sheet, and first on it; then the looks.
  const named = (name: StepName) => told.answer.steps.filter(({ step }) => step === name);
  const before: SheetStep = named("before_power")[0] ?? { step: "before_power", readings: [] };
  const others = told.answer.steps.filter(({ step }) => step !== "before_power" && step !== "looks");
  const steps = [before, ...named("looks"), ...others]
    .map((step) => ({ step, checks: checksOf(told, step) }))
    .filter(({ step, checks }) => step.readings.length > 0 || checks.length > 0);
  return {
    safety: safetyWords(told),
    meters: metersWords(told),
    bands: BANDS,
    still: stillWords(told),
    steps: steps.map(({ step, checks }, i) => ({
      step: step.step,
      title: `${i + 1}. ${TITLE[step.step]}`,
      caution: cautionOf(told, step.step),
      how: told.answer.long ? howOf(told, step) : shortHowOf(told, step),
      checks,
      readings: step.readings.map((each) => ({ ...readingWords(each, told), read: taken.get(each.reading) })),
    })),
    faults: faultTables(told),
    afterwards: AFTERWARDS,
  };
}

const TOOL: Readonly<Record<Tool, string>> = {
  voltmeter: "a voltmeter",
  clamp: "a clamp ammeter that reads direct current",
  balance: "a spring balance",
  tape: "a tape",
  watch: "a watch",
  rule: "a steel rule",
  level: "a level and straight edge",
  thermometer: "a thermometer",
};

/** What the readings of this sheet are taken with. */
function metersWords({ answer: { tools, long, steps } }: TrialTold): string {
  const used = tools.filter((tool) => steps.some(({ readings }) => readings.some((each) => each.tools.includes(tool))));
  const more = long ? "" : " Everything there is to read: --long.";
  return `For ${listed(used.map((tool) => TOOL[tool])) || "the eyes alone"}; fewer by --with voltmeter,clamp. What cannot be read is left blank.${more}`;
}

const BANDS =
  "Between: nineteen sound locos in twenty read there. The bands come from how well each figure of the files is known and how well such instruments read (common practice, no source), so one reading in twenty a little outside means nothing.";

const AFTERWARDS =
  'A reading well outside: stop, and say what was read: --saw "rest_volts=25.0 V; run_speed=0", or --readings FILE with a filled sheet.csv, which --out FOLDER writes beside the sheet for paper. The causes are ranked, and the next thing to look at or read is named.';

function readingWords(reading: SheetReading, { eyes }: TrialTold): Omit<ReadingWords, "read"> {
  const marked = asMarked(reading, eyes);
  const what = reading.what.replace(/(\d+\.\d+) m\/s/, (_, value_mps) => readingValue(Number(value_mps), "m/s", eyes));
  return {
    reading: reading.reading,
    what: marked === "" ? what : `${what} (${marked})`,
    label: shortLabel(reading.reading),
    expected: expectedWords(reading, eyes),
    band: bandWords(reading, eyes),
    yesOrNo: reading.unit === "yes/no",
    orElse: reading.or_else?.answer ?? "",
  };
}
