import { brakesStep_s } from "../brakes.js";
import type { Cause, Variant } from "./causes.js";
import type { Doubt } from "./doubts.js";
import type { Instrument } from "./instruments.js";
import { gaugesOf, type Prediction, predict } from "./predict.js";
import type { Reading } from "./readings.kinds.js";
import type { Setting } from "./setting.js";
import { afterLaps, oneLap, type SoundLaps } from "./timed.js";

/** One way of one cause: what it reads at each of its sizes. */
export interface Chapter {
  readonly cause: Cause;
  readonly variant: Variant;
  readonly predictions: readonly Prediction[];
}

/** What every cause would read, at every size. It hangs on the loco alone, not on what was read. */
export interface Book {
  readonly setting: Setting;
  readonly readings: readonly Reading[];
  readonly doubts: readonly Doubt[];
  /** Instruments whose calibration is in doubt. */
  readonly gauges: readonly Instrument[];
  /** The machine as it should be. */
  readonly sound: Prediction;
  readonly chapters: readonly Chapter[];
}

/** @param causes none for the sound machine alone */
export function bookOf(
  setting: Setting,
  readings: readonly Reading[],
  doubts: readonly Doubt[],
  causes: readonly Cause[],
): Book {
  const { machine } = setting;
  const gauges = gaugesOf(readings);
  const sound = predict(setting, readings, doubts, machine);
  const laps = causes.length > 0 ? soundLaps(setting, readings) : undefined;
  const predicted = (cause: Cause, variant: Variant, size: number) =>
    cause.cause === "nothing_wrong"
      ? sound
      : predict(setting, readings, doubts, variant.apply(machine, size), sound, laps);
  const chapters = causes.flatMap((cause) =>
    cause.variants.map((variant) => ({
      cause,
      variant,
      predictions: variant.sizes.map((size) => predicted(cause, variant, size)),
    })),
  );
  return { setting, readings, doubts, gauges, sound, chapters };
}

/** The laps of the sound machine, where a reading is taken after them. */
function soundLaps({ machine, outing, step_s }: Setting, readings: readonly Reading[]): SoundLaps | undefined {
  if (!readings.some(({ step }) => step === "after_laps")) return undefined;
  const after = afterLaps(machine, outing, step_s);
  const one = oneLap(machine, outing, brakesStep_s(outing.train));
  return after && one ? { after, one } : undefined;
}

/** The same book of some of its readings alone, for the likelihood of these: slopes and bands stay the whole book's. */
export function narrowed(book: Book, places: readonly number[]): Book {
  const n = book.readings.length;
  const pick = <T>(values: ArrayLike<T>) => places.map((at) => values[at]);
  const among = (covariance: Float64Array) => {
    const own = new Float64Array(places.length ** 2);
    let at = 0;
    for (const row of places) for (const column of places) own[at++] = covariance[row * n + column];
    return own;
  };
  const narrow = (whole: Prediction): Prediction => ({
    ...whole,
    values: pick(whole.values),
    scaled: pick(whole.scaled),
    covariance: among(whole.covariance),
  });
  return {
    ...book,
    readings: pick(book.readings),
    sound: narrow(book.sound),
    chapters: book.chapters.map((chapter) => ({ ...chapter, predictions: chapter.predictions.map(narrow) })),
  };
}
