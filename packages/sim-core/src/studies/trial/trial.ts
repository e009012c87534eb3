import type { LocoDefinition } from "../../parts/files.keys.js";
import { sound } from "../../record/sound.js";
import { mustBeList } from "../asked.js";
import { bookOf } from "./book.js";
import { causesOf } from "./causes.js";
import type { Cause } from "./causes.kinds.js";
import { doubtsOf, surenessOf } from "./doubts.js";
import { type FaultRow, faultTable, onceEach } from "./faults.js";
import { TOOLS, type Tool } from "./instruments.js";
import { type Books, type Filled, type Judged, judged } from "./judged.js";
import { lineOf, type SheetReading } from "./lines.js";
import { type Outing, STEPS, type StepName } from "./machine.js";
import { groundOf, pick, pickedWorkings, predict } from "./predict.js";
import { readingsOf } from "./readings.js";
import type { Reading } from "./readings.kinds.js";
import { isShort } from "./readings.short.js";
import { type Setting, settingOf } from "./setting.js";
import { statesOf } from "./states.js";

export interface SheetStep {
  step: StepName;
  readings: SheetReading[];
}

/** What a sheet is made for. */
export interface TrialOptions {
  /** The instruments there are; all of them unless told. */
  readonly tools?: readonly Tool[];
  /** Everything that these can read, and not the ten readings to begin with. */
  readonly long?: boolean;
  /** A filled sheet to judge. */
  readonly filled?: Filled;
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
  tools: readonly Tool[];
  long: boolean;
  steps: SheetStep[];
  /** For each symptom the causes that show it, and what each would read; null on a short sheet. */
  faults: FaultRow[] | null;
  /** What was read beside what a sound loco reads; null without readings. */
  taken: Judged["taken"] | null;
  /** The causes ranked, the likeliest first, and what to look at or read next; null without readings. */
  causes: Judged["causes"] | null;
  next_reading: Judged["next_reading"];
}

/** A trial made ready: its sheet can be printed, and as many filled sheets judged as there are. */
export interface Trial {
  readonly setting: Setting;
  readonly sheet: SheetStep[];
  /** Every cause that this loco can have. */
  readonly causes: readonly Cause[];
  /** What a sound loco reads, and each cause, of some readings; of all that the sheet knows unless named. */
  readonly book: Books;
}

/** Every reading of this loco's sheets, the long one and the short: what they are called and what unit they are in. */
export const readingNames = (outing: Outing, loco: LocoDefinition): Reading[] => readingsOf(settingOf(outing, loco));

/** Makes a trial ready: what a sound loco reads is worked out, what each cause would read waits until it is asked for. */
export function trialOf(
  outing: Outing,
  loco: LocoDefinition,
  { tools = TOOLS, long = false, filled }: TrialOptions = {},
): Trial {
  const setting = settingOf(outing, loco, filled?.told);
  const sure = surenessOf(outing.train.notes.assumed, loco, filled?.told);
  const taken = new Set(filled?.taken.map(({ reading }) => reading));
  const can = (reading: Reading) => reading.instrument?.tools.every((tool) => tools.includes(tool)) ?? true;
  const short = (reading: Reading) => isShort(reading, setting.machine.train);
  const all = readingsOf(setting).filter(
    (reading) => taken.has(reading.reading) || (can(reading) && (long || short(reading) || (filled && !reading.timed))),
  );
  const ground = groundOf(setting, all, doubtsOf(sure));
  const states = statesOf(setting, setting.machine);
  const sound = predict(ground, states);
  const lines = all.map((_, r) => lineOf(ground, sound, r));
  const onSheet = (r: number) => taken.has(all[r].reading) || long || short(all[r]);
  const sheet = STEPS.map((step) => ({
    step,
    readings: lines.filter((_, r) => all[r].step === step && onSheet(r)),
  })).filter(({ readings }) => readings.length > 0);
  const causes = causesOf(setting, sure);
  const book: Books = (names, wanted = causes, worth) => {
    const places = [...all.keys()].filter((r) => names?.includes(all[r].reading) ?? true);
    return bookOf({ ...ground, readings: pick(all, places) }, states, pickedWorkings(sound, places), wanted, worth);
  };
  return { setting, sheet, causes, book };
}

/**
 * The sheet of a first outing; the long one with its fault table, a filled one with the causes ranked and what to look at or
 * read next. Readings that are not on the sheet are left out.
 */
export function trial(outing: Outing, loco: LocoDefinition, wanted: TrialOptions = {}): TrialAnswer {
  mustBeList("tools", wanted.tools, (tool) => TOOLS.includes(tool as Tool), `of ${TOOLS.join(", ")} some`);
  const ready = trialOf(outing, loco, wanted);
  const { levers, speeds, machine } = ready.setting;
  const { filled, long = false } = wanted;
  return sound({
    lever_held: levers.held,
    lever_walk: levers.walk,
    lever_run: levers.run,
    walking_speed_mps: speeds.walk_mps,
    line_speed_mps: speeds.line_mps,
    steepest_percent: 100 * machine.steep,
    tools: wanted.tools ?? TOOLS,
    long,
    steps: ready.sheet,
    faults: long ? faultTable(ready.book(beforeTheLaps(ready), onceEach(ready.causes))) : null,
    ...(filled ? judged(ready.book, beforeTheLaps(ready), filled) : { taken: null, causes: null, next_reading: null }),
  });
}

/** Readings that need no laps. */
const beforeTheLaps = ({ sheet }: Trial): string[] =>
  sheet.filter(({ step }) => step !== "after_laps").flatMap(({ readings }) => readings.map(({ reading }) => reading));
