import { brakesStep_s } from "../brakes/brakes.js";
import type { Doubt } from "./doubts.js";
import { errorOnScale, gainOnScale, type Instrument, onScale } from "./instruments.js";
import type { Machine } from "./machine.js";
import type { Reading } from "./readings.kinds.js";
import type { Setting } from "./setting.js";
import { type States, statesOf } from "./states.js";
import { afterLapsLike, soundLaps } from "./timed.js";

/** What is asked of every machine, sound or not. */
export interface Ground {
  readonly setting: Setting;
  readonly readings: readonly Reading[];
  readonly doubts: readonly Doubt[];
  /** Instruments whose calibration is in doubt. */
  readonly gauges: readonly Instrument[];
}

/** What one machine reads, and how far it may be off. */
export interface Prediction {
  /** Null where there is nothing to read. */
  readonly values: readonly (number | null)[];
  /** The same on the scale that each is compared on. */
  readonly scaled: readonly (number | null)[];
  /** There, of doubts and the instruments' own errors together, row after row; a yes or no is a margin. */
  readonly covariance: Float64Array;
}

/** A prediction with what it was made of. */
export interface Workings extends Prediction {
  /**
   * How each reading moves on its scale with one standard deviation of each doubt: a row for a reading, a column for a
   * doubt, those about the instruments' calibration last.
   */
  readonly slopes: Float64Array;
  /** Variance of each reading, on its scale, by what all doubts raise it and by what they lower it: for its band. */
  readonly raised: Float64Array;
  readonly lowered: Float64Array;
}

export const groundOf = (setting: Setting, readings: readonly Reading[], doubts: readonly Doubt[]): Ground => ({
  ...{ setting, readings, doubts, gauges: gaugesOf(readings) },
});

/**
 * What a machine reads, and how that moves with each doubt along a straight line.
 * @param sound of the sound machine: readings by a whole simulation take their slopes from it; without it every slope is
 * worked out
 */
export function predict({ setting, readings, doubts, gauges }: Ground, states: States, sound?: Workings): Workings {
  const { m } = states;
  // Slopes by simulation are wanted to a few percent: a coarser step will do, the same on both sides, and one side only.
  const coarse = { ...setting, step_s: brakesStep_s(setting.outing.train) };
  const laps = sound ? undefined : soundLaps(states, { setting, readings });
  const like = (off: Machine) => statesOf(coarse, off, laps && (() => afterLapsLike(laps, off, setting)));
  const undoubted = like(m);
  const { values, scaled } = valuesOf({ readings }, states);
  const columns = doubts.length + gauges.length;
  const slopes = new Float64Array(readings.length * columns);
  // Variance of each reading by itself: the instrument's, and what a limit holds on one side only.
  const loose = Float64Array.from(readings, ({ instrument }, r) => errorOnScale(instrument, values[r] ?? 0) ** 2);
  const raised = new Float64Array(readings.length);
  const lowered = new Float64Array(readings.length);
  doubts.forEach((doubt, d) => {
    const off = doubt.apply(m, 1);
    const more = doubt.onLaps ? like(off) : statesOf(coarse, off, undoubted.after);
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
  return { values, scaled, covariance: covarianceOf(slopes, loose), slopes, raised, lowered };
}

/** What a machine reads, and that on its scale; readings by whole simulations as `known` has them, where they are. */
export function valuesOf(
  { readings }: Pick<Ground, "readings">,
  states: States,
  known?: Prediction,
): Pick<Prediction, "values" | "scaled"> {
  const values = readings.map(({ value, timed }, r) => (timed && known ? known.values[r] : value(states)));
  return { values, scaled: readings.map(({ instrument }, r) => scaledOf(instrument, values[r])) };
}

/**
 * The prediction between two, straight from one to the other; where only one has a value, the nearer's. No reading is
 * surer than its instrument.
 */
export function between(
  a: Prediction,
  b: Prediction,
  share: number,
  { readings }: Pick<Ground, "readings">,
): Prediction {
  const near = share < 0.5 ? a : b;
  const mix = (from: Prediction["values"], to: Prediction["values"], nearest: Prediction["values"]) =>
    from.map((value, r) => {
      const other = to[r];
      return value === null || other === null ? nearest[r] : value + share * (other - value);
    });
  const values = mix(a.values, b.values, near.values);
  const n = values.length;
  const covariance = new Float64Array(a.covariance.length);
  for (let i = 0; i < covariance.length; i++)
    covariance[i] = a.covariance[i] + share * (b.covariance[i] - a.covariance[i]);
  for (let r = 0; r < n; r++) {
    // Where only one of the two has a reading, half a variance is left: that one's stands for it whole.
    const own = r * n + r;
    const whole =
      (a.values[r] === null) === (b.values[r] === null) ? 0 : Math.max(a.covariance[own], b.covariance[own]);
    covariance[own] = Math.max(covariance[own], whole, errorOnScale(readings[r].instrument, values[r] ?? 0) ** 2);
  }
  return { values, scaled: mix(a.scaled, b.scaled, near.scaled), covariance };
}

/** The same of some of its readings alone. */
export function picked({ values, scaled, covariance }: Prediction, places: readonly number[]): Prediction {
  const among = new Float64Array(places.length ** 2);
  let at = 0;
  for (const row of places) for (const column of places) among[at++] = covariance[row * values.length + column];
  return { values: pick(values, places), scaled: pick(scaled, places), covariance: among };
}

/** The same, with its workings. */
export function pickedWorkings(whole: Workings, places: readonly number[]): Workings {
  const columns = whole.slopes.length / whole.values.length;
  const rows = places.map((at) => whole.slopes.subarray(at * columns, (at + 1) * columns));
  return {
    ...picked(whole, places),
    slopes: Float64Array.from(rows.flatMap((row) => Array.from(row))),
    raised: Float64Array.from(places, (at) => whole.raised[at]),
    lowered: Float64Array.from(places, (at) => whole.lowered[at]),
  };
}

export const pick = <T>(values: readonly T[], places: readonly number[]): T[] => places.map((at) => values[at]);

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
function gaugesOf(readings: readonly Reading[]): Instrument[] {
  const used = readings.flatMap(({ instrument }) => (instrument && instrument.gain > 0 ? [instrument] : []));
  return used.filter(({ name }, i) => used.findIndex((other) => other.name === name) === i);
}

const difference = (to: number | null, from: number | null): number => (to === null || from === null ? 0 : to - from);

const scaledOf = (instrument: Instrument | undefined, value: number | null): number | null =>
  value === null ? null : onScale(instrument, value);
