import type { LocoDefinition } from "../../parts/files.keys.js";
import { sound } from "../../sound.js";
import { type Book, bookOf } from "./book.js";
import { causesOf } from "./causes.js";
import { doubtsOf, surenessOf } from "./doubts.js";
import { type FaultRow, faultTable } from "./faults.js";
import { errorOnScale, offScale, onScale } from "./instruments.js";
import { likelyYes, type Read } from "./likelihood.js";
import type { Outing } from "./machine.js";
import { type NextReading, nextReading } from "./next.js";
import { type Ground, groundOf, pick, pickedWorkings, predict, type Workings } from "./predict.js";
import { type Priors, type RankedCause, rank } from "./rank.js";
import { readingsOf } from "./readings.js";
import { type ReadingUnit, STEPS, type StepName } from "./readings.kinds.js";
import { type Setting, settingOf } from "./setting.js";
import { statesOf } from "./states.js";

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
}

export interface SheetStep {
  step: StepName;
  readings: SheetReading[];
}

/** The answer of `trial`. */
export interface TrialAnswer {
  /** Where the lever stands in the held, walking and running tests, and the speeds it is stopped from. */
  lever_held: number;
  lever_walk: number;
  lever_run: number;
  walking_speed_mps: number;
  line_speed_mps: number;
  steepest_percent: number;
  steps: SheetStep[];
  /** For each symptom the causes that show it, and what each would read. */
  faults: FaultRow[];
  /** The causes ranked, the likeliest first, and the reading to take next; null without readings. */
  causes: RankedCause[] | null;
  next_reading: NextReading | null;
}

/** One line of a filled sheet. */
export interface Taken {
  reading: string;
  /** In the unit of the sheet; 1 for yes and 0 for no. */
  value: number;
}

/** A trial made ready: its sheet can be printed, and as many filled sheets judged as there are. */
export interface Trial {
  readonly setting: Setting;
  readonly sheet: SheetStep[];
  readonly book: (readings: readonly string[]) => Book;
}

/** Standard deviations either side that leave out one sound loco in twenty. */
const BAND_sd = 1.96;

/** Makes a trial ready: what a sound loco reads is worked out, what each cause would read waits until it is asked for. */
export function trialOf(outing: Outing, loco: LocoDefinition): Trial {
  const setting = settingOf(outing, loco);
  const { assumed } = outing.train.notes;
  const sure = surenessOf(assumed, loco.motor.nameplate !== undefined);
  const ground = groundOf(setting, readingsOf(setting), doubtsOf(sure));
  const { readings } = ground;
  const states = statesOf(setting, setting.machine);
  const sound = predict(ground, states);
  const lines = readings.map((_, r) => line(ground, sound, r));
  const sheet = STEPS.map((step) => ({ step, readings: lines.filter((_, r) => readings[r].step === step) }));
  const causes = causesOf(setting, sure);
  // The laps afterwards take long to simulate for every cause: only where they were read.
  const book = (wanted: readonly string[]) => {
    const places = [...readings.keys()].filter(
      (r) => readings[r].step !== "after_laps" || wanted.includes(readings[r].reading),
    );
    const own = { ...ground, readings: pick(readings, places) };
    return bookOf(own, states, pickedWorkings(sound, places), causes);
  };
  return { setting, sheet, book };
}

/** What was read, in the sheet's own units, and how likely each cause is beforehand. */
export interface Filled {
  readonly taken: readonly Taken[];
  readonly priors?: Priors;
}

/**
 * The sheet of a first outing and its fault table; with a filled sheet, the causes ranked and what to read next.
 * Readings that are not on the sheet are left out.
 */
export function trial(ready: Trial, filled?: Filled): TrialAnswer {
  const { levers, speeds, machine } = ready.setting;
  const book = ready.book((filled?.taken ?? []).map(({ reading }) => reading));
  return sound({
    lever_held: levers.held,
    lever_walk: levers.walk,
    lever_run: levers.run,
    walking_speed_mps: speeds.walk_mps,
    line_speed_mps: speeds.line_mps,
    steepest_percent: 100 * machine.steep,
    steps: ready.sheet,
    faults: faultTable(book),
    ...(filled ? judge(book, filled) : { causes: null, next_reading: null }),
  });
}

/** The causes that a filled sheet makes likely. */
export function judge(book: Book, { taken, priors }: Filled): Pick<TrialAnswer, "causes" | "next_reading"> {
  const read = taken.flatMap(({ reading, value }): Read[] => {
    const at = book.readings.findIndex((each) => each.reading === reading);
    return at < 0 ? [] : [{ at, value }];
  });
  const { causes, ways } = rank(book, read, priors);
  return { causes, next_reading: nextReading(book, read, ways) };
}

function line({ readings }: Ground, sound: Workings, r: number): SheetReading {
  const { reading, what, unit, instrument } = readings[r];
  const value = sound.values[r];
  const about = { reading, what, unit, instrument: instrument?.name ?? null };
  const nothing = { expected: null, low: null, high: null, yes_probability: null };
  if (value === null) return { ...about, ...nothing };
  if (unit === "yes/no") {
    const yes = likelyYes(sound, r);
    return { ...about, ...nothing, expected: yes >= 0.5 ? "yes" : "no", yes_probability: yes };
  }
  const scaled = onScale(instrument, value);
  const error = errorOnScale(instrument, value);
  const off = (variance: number) => BAND_sd * Math.sqrt(variance + error ** 2);
  // A pull, a current, a distance is never below nothing.
  const least = unit === "°C" || reading.endsWith("_rise") ? Number.NEGATIVE_INFINITY : 0;
  const low = Math.max(least, offScale(instrument, scaled - off(sound.lowered[r])));
  return { ...about, ...nothing, expected: value, low, high: offScale(instrument, scaled + off(sound.raised[r])) };
}
