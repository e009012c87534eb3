import { brakesStep_s } from "../brakes.js";
import type { Cause } from "./causes.js";
import type { Machine } from "./machine.js";
import { type Ground, type Prediction, pick, picked, predict, type Workings } from "./predict.js";
import type { Reading } from "./readings.kinds.js";
import { type States, statesOf } from "./states.js";
import { afterLapsLike, oneLap, type SoundLaps } from "./timed.js";

/** One way of one cause: what it reads at each of its sizes. */
export interface Chapter {
  readonly cause: Cause;
  readonly variant: Cause["variants"][number];
  readonly predictions: readonly Prediction[];
}

/** What every cause would read, at every size. It hangs on the loco alone, not on what was read. */
export interface Book extends Ground {
  /** The machine as it should be. */
  readonly sound: Prediction;
  readonly chapters: readonly Chapter[];
}

/** @param states of the sound machine; @param sound what it reads */
export function bookOf(ground: Ground, states: States, sound: Workings, causes: readonly Cause[]): Book {
  const { setting } = ground;
  const laps = soundLaps(states, ground);
  const coarse_s = brakesStep_s(setting.outing.train);
  const ill = (m: Machine) =>
    statesOf(setting, m, laps && (() => afterLapsLike(laps, setting.machine, m, setting.outing, coarse_s)));
  const chapters = causes.flatMap((cause) =>
    cause.variants.map((variant) => ({
      cause,
      variant,
      predictions: variant.sizes.map((size) =>
        cause.cause === "nothing_wrong" ? sound : predict(ground, ill(variant.apply(setting.machine, size)), sound),
      ),
    })),
  );
  return { ...ground, sound, chapters };
}

/** The laps of the sound machine, where a reading is taken after them. */
function soundLaps(states: States, { setting: { machine, outing }, readings }: Ground): SoundLaps | undefined {
  if (!readings.some(({ step }: Reading) => step === "after_laps")) return undefined;
  const after = states.after();
  const one = oneLap(machine, outing, brakesStep_s(outing.train));
  return after && one ? { after, one } : undefined;
}

/** The same book of some of its readings alone. */
export const narrowed = (book: Book, places: readonly number[]): Book => ({
  ...book,
  readings: pick(book.readings, places),
  sound: picked(book.sound, places),
  chapters: book.chapters.map((chapter) => ({
    ...chapter,
    predictions: chapter.predictions.map((prediction) => picked(prediction, places)),
  })),
});
