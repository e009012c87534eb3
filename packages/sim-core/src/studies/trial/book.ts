import type { Cause, Variant } from "./causes.kinds.js";
import type { Machine } from "./machine.js";
import {
  between,
  type Ground,
  type Prediction,
  pick,
  picked,
  pickedWorkings,
  predict,
  valuesOf,
  type Workings,
} from "./predict.js";
import { type States, statesOf } from "./states.js";
import { afterLapsLike, soundLaps } from "./timed.js";

/** One way of one cause: what it reads at each of its sizes. */
export interface Chapter {
  readonly cause: Cause;
  readonly variant: Variant;
  readonly predictions: readonly Prediction[];
}

/** What every cause would read, at every size. It hangs on the loco alone, not on what was read. */
export interface Book extends Ground {
  /** The machine as it should be. */
  readonly sound: Workings;
  readonly chapters: readonly Chapter[];
}

/**
 * @param states of the sound machine; @param sound what it reads
 * @param worth the ways whose laps are worth running: of the others nothing is known after the laps
 */
export function bookOf(
  ground: Ground,
  states: States,
  sound: Workings,
  causes: readonly Cause[],
  worth: (way: Variant) => boolean = () => true,
): Book {
  const { setting } = ground;
  const laps = soundLaps(states, ground);
  const ill = (variant: Variant) => (m: Machine) =>
    statesOf(setting, m, laps && (() => (worth(variant) ? afterLapsLike(laps, m, setting) : null)));
  const chapters = causes.flatMap((cause) =>
    cause.variants.map((variant) => ({
      cause,
      variant,
      predictions: cause.cause === "nothing_wrong" ? [sound] : alongSizes(ground, sound, variant, ill(variant)),
    })),
  );
  return { ...ground, sound, chapters };
}

/**
 * Doubts, and readings by whole simulations, are worked out at every so many sizes and taken straight in between: they
 * change little from one to the next.
 */
const EVERY = 6;

function alongSizes(
  ground: Ground,
  sound: Workings,
  { sizes, apply }: Variant,
  ill: (m: Machine) => States,
): Prediction[] {
  const { machine } = ground.setting;
  const last = sizes.length - 1;
  const whole = (i: number) => predict(ground, ill(apply(machine, sizes[i])), sound);
  const predictions: Prediction[] = [];
  let from = whole(0);
  predictions.push(from);
  for (let i = 0; i < last; i += EVERY) {
    const next = Math.min(last, i + EVERY);
    const to = whole(next);
    for (let k = i + 1; k < next; k++) {
      const straight = between(from, to, (k - i) / (next - i), ground);
      predictions.push({ ...straight, ...valuesOf(ground, ill(apply(machine, sizes[k])), straight) });
    }
    predictions.push(to);
    from = to;
  }
  return predictions;
}

/** The same book of some of its readings alone. */
export const narrowed = (book: Book, places: readonly number[]): Book => ({
  ...book,
  readings: pick(book.readings, places),
  sound: pickedWorkings(book.sound, places),
  chapters: book.chapters.map((chapter) => ({
    ...chapter,
    predictions: chapter.predictions.map((prediction) => picked(prediction, places)),
  })),
});
