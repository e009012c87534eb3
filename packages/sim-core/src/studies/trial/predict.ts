import { brakesStep_s } from "../brakes.js";
import type { Doubt } from "./doubts.js";
import { errorOnScale, gainOnScale, type Instrument, onScale } from "./instruments.js";
import type { Machine } from "./machine.js";
import type { Reading } from "./readings.kinds.js";
import type { Setting } from "./setting.js";
import { statesOf } from "./states.js";
import { afterLapsLike, type SoundLaps } from "./timed.js";

/** What one machine reads, and how far it may be off. */
export interface Prediction {
  /** Null where there is nothing to read. */
  readonly values: readonly (number | null)[];
  /** The same on the scale that each is compared on. */
  readonly scaled: readonly (number | null)[];
  /**
   * How each moves there with one standard deviation of each doubt: a row for a reading, a column for a doubt, those about
   * the instruments' calibration last.
   */
  readonly slopes: Float64Array;
  /** What follows from these and from the instruments' own errors, row after row; a yes or no is a margin. */
  readonly covariance: Float64Array;
  /** Variance of each reading, on its scale, by what all doubts raise it and by what they lower it: for its band. */
  readonly raised: Float64Array;
  readonly lowered: Float64Array;
}

/**
 * What a machine reads, and how that moves with each doubt along a straight line.
 * @param sound of the sound machine: readings by a whole simulation take their slopes from it; without it every slope is
 * worked out
 * @param laps what a sound machine's laps take, to work this one's out from a single lap; without it all are run
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
  // Variance of each reading by itself: the instrument's, and what a limit holds on one side only.
  const loose = Float64Array.from(readings, ({ instrument }, r) => errorOnScale(instrument, values[r] ?? 0) ** 2);
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
    slopes[r * columns + doubts.length + gauges.findIndex(({ name }) => name === instrument.name)] = gain;
    raised[r] += gain ** 2;
    lowered[r] += gain ** 2;
  });
  return { values, scaled, slopes, covariance: covarianceOf(slopes, loose), raised, lowered };
}

function covarianceOf(slopes: Float64Array, loose: Float64Array): Float64Array {
  const n = loose.length;
  const columns = slopes.length / n;
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = i === j ? loose[i] : 0;
      for (let d = 0; d < columns; d++) sum += slopes[i * columns + d] * slopes[j * columns + d];
      covariance[i * n + j] = sum;
      covariance[j * n + i] = sum;
    }
  }
  return covariance;
}

/** Instruments whose calibration is in doubt; one read in two ways is the same instrument. */
export function gaugesOf(readings: readonly Reading[]): Instrument[] {
  const used = readings.flatMap(({ instrument }) => (instrument && instrument.gain > 0 ? [instrument] : []));
  return used.filter(({ name }, i) => used.findIndex((other) => other.name === name) === i);
}

const difference = (to: number | null, from: number | null): number => (to === null || from === null ? 0 : to - from);

const scaledOf = (instrument: Instrument | undefined, value: number | null): number | null =>
  value === null ? null : onScale(instrument, value);
