import { brakesStep_s } from "../brakes.js";
import type { Cause, Variant } from "./causes.js";
import type { Doubt } from "./doubts.js";
import { gainOnScale, type Instrument, onScale } from "./instruments.js";
import type { Machine } from "./machine.js";
import type { Reading } from "./readings.js";
import type { Setting } from "./setting.js";
import { statesOf } from "./states.js";
import { afterLaps, afterLapsLike, oneLap, type SoundLaps } from "./timed.js";

/**
 * What one machine reads, and how each reading moves with each doubt: a row for a reading, a column for a doubt, those
 * about the instruments' calibration last.
 */
export interface Prediction {
  /** Null where there is nothing to read. */
  readonly values: readonly (number | null)[];
  /** The same on the scale that each is compared on, and how it moves there with one standard deviation of each doubt. */
  readonly scaled: readonly (number | null)[];
  readonly slopes: Float64Array;
  /** Variance of each reading, on its scale, that a limit puts in: what it holds on one side does not go with other readings. */
  readonly loose: Float64Array;
  /** Variance of each reading, on its scale, by what all doubts raise it and by what they lower it: for its band. */
  readonly raised: Float64Array;
  readonly lowered: Float64Array;
}

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
  /** Columns of `slopes`. */
  readonly columns: number;
  /** The machine as it should be. */
  readonly sound: Prediction;
  readonly chapters: readonly Chapter[];
}

export function bookOf(
  setting: Setting,
  readings: readonly Reading[],
  doubts: readonly Doubt[],
  causes: readonly Cause[],
): Book {
  const { machine } = setting;
  const gauges = gaugesOf(readings);
  const columns = doubts.length + gauges.length;
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
  return { setting, readings, doubts, gauges, columns, sound, chapters };
}

/** The laps of the sound machine, where a reading is taken after them. */
function soundLaps({ machine, outing, step_s }: Setting, readings: readonly Reading[]): SoundLaps | undefined {
  if (!readings.some(({ step }) => step === "after_laps")) return undefined;
  const after = afterLaps(machine, outing, step_s);
  const one = oneLap(machine, outing, brakesStep_s(outing.train));
  return after && one ? { after, one } : undefined;
}

/**
 * @param sound of the sound machine: readings by a whole simulation take their slopes from it; without it every slope is
 * worked out
 */
export function predict(
  setting: Setting,
  readings: readonly Reading[],
  doubts: readonly Doubt[],
  m: Machine,
  sound?: Prediction,
  laps?: SoundLaps,
): Prediction {
  // Slopes by simulation are wanted to a few percent: a coarser step will do, the same on both sides, and one side only.
  const coarse = { ...setting, step_s: brakesStep_s(setting.outing.train) };
  const undoubted = statesOf(coarse, m);
  const states = statesOf(
    setting,
    m,
    laps && (() => afterLapsLike(laps, setting.machine, m, setting.outing, coarse.step_s)),
  );
  const values = readings.map(({ value }) => value(states));
  const scaled = readings.map(({ instrument }, r) => scaledOf(instrument, values[r]));
  const gauges = gaugesOf(readings);
  const columns = doubts.length + gauges.length;
  const slopes = new Float64Array(readings.length * columns);
  const loose = new Float64Array(readings.length);
  const raised = new Float64Array(readings.length);
  const lowered = new Float64Array(readings.length);
  doubts.forEach((doubt, d) => {
    const more = statesOf(coarse, doubt.apply(m, 1), doubt.onLaps ? undefined : undoubted.after);
    const less = statesOf(coarse, doubt.apply(m, -1));
    readings.forEach(({ timed, value, instrument }, r) => {
      if (values[r] === null) return;
      const at = r * columns + d;
      if (timed && sound) {
        slopes[at] = sound.values[r] === null ? 0 : sound.slopes[at];
        return;
      }
      const here = timed ? scaledOf(instrument, value(undoubted)) : scaled[r];
      const up = difference(scaledOf(instrument, value(more)), here);
      const down = timed ? up : difference(here, scaledOf(instrument, value(less)));
      // A limit may hold a reading on one side: what both sides have in common is a slope, the rest is loose.
      const common = up * down <= 0 ? 0 : Math.abs(up) < Math.abs(down) ? up : down;
      slopes[at] = common;
      raised[r] += Math.max(0, up, -down) ** 2;
      lowered[r] += Math.max(0, -up, down) ** 2;
      loose[r] += (Math.max(Math.abs(up), Math.abs(down)) - Math.abs(common)) ** 2;
    });
  });
  readings.forEach(({ instrument }, r) => {
    const value = values[r];
    if (!instrument || value === null || instrument.gain === 0) return;
    const gain = gainOnScale(instrument, value);
    slopes[r * columns + doubts.length + gauges.indexOf(instrument)] = gain;
    raised[r] += gain ** 2;
    lowered[r] += gain ** 2;
  });
  return { values, scaled, slopes, loose, raised, lowered };
}

export const gaugesOf = (readings: readonly Reading[]): Instrument[] => [
  ...new Set(readings.flatMap(({ instrument }) => (instrument && instrument.gain > 0 ? [instrument] : []))),
];

const difference = (to: number | null, from: number | null): number => (to === null || from === null ? 0 : to - from);

const scaledOf = (instrument: Instrument | undefined, value: number | null): number | null =>
  value === null ? null : onScale(instrument, value);
