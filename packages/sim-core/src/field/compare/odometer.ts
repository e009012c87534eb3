import { InputError } from "../../errors.js";
import type { LogColumns } from "./log.js";

/** Blank readings straight between their neighbours in time, at the ends like the nearest. */
export function filled(time_s: ArrayLike<number>, column: ArrayLike<number>): Float64Array {
  const out = Float64Array.from(column);
  let before = -1;
  for (let i = 0; i <= out.length; i++) {
    if (i < out.length && Number.isNaN(out[i])) continue;
    for (let j = before + 1; j < i; j++) {
      if (before < 0) out[j] = i < out.length ? out[i] : 0;
      else if (i === out.length) out[j] = out[before];
      else
        out[j] = out[before] + ((out[i] - out[before]) * (time_s[j] - time_s[before])) / (time_s[i] - time_s[before]);
    }
    before = i;
  }
  return out;
}

/** An odometer that begins anew is one that goes on; what falls besides stands still instead. */
export function unwound(told_m: Float64Array): { raw_m: Float64Array; fell: number } {
  const raw_m = new Float64Array(told_m.length);
  let [before_m, most_m, fell] = [0, told_m[0], 0];
  for (let i = 1; i < told_m.length; i++) {
    if (beginsAnew(told_m[i], told_m[i - 1], most_m)) {
      before_m += most_m - told_m[i];
      most_m = told_m[i];
    } else if (told_m[i] < told_m[i - 1]) fell++;
    most_m = Math.max(most_m, told_m[i]);
    raw_m[i] = Math.max(raw_m[i - 1], before_m + told_m[i] - told_m[0]);
  }
  return { raw_m, fell };
}

/** Speed added up by trapezoids, never back. */
export function addedUp(time_s: ArrayLike<number>, speed: ArrayLike<number>): Float64Array {
  const told = filled(time_s, speed);
  const run_m = new Float64Array(told.length);
  for (let i = 1; i < told.length; i++)
    run_m[i] = run_m[i - 1] + Math.max(0, ((told[i] + told[i - 1]) / 2) * (time_s[i] - time_s[i - 1]));
  return run_m;
}

/** An odometer that begins anew falls at once, to next to nothing. */
const beginsAnew = (now_m: number, before_m: number, most_m: number): boolean =>
  now_m < 0.2 * most_m && before_m - now_m > 0.5 * most_m;

/** A wheel that rocks and a receiver that wanders go back by less, m. */
const ROCKS_m = 10;

/** A log that runs back is of two ways, and nothing here drives backwards. @throws InputError */
export function mustRunOneWay({ time_s, distance, speed }: LogColumns): void {
  const told = distance && filled(time_s, distance);
  let [at_m, most_m] = [told?.[0] ?? 0, told?.[0] ?? 0];
  for (let i = 1; i < time_s.length; i++) {
    const before_m = at_m;
    at_m = told ? told[i] : at_m + (speed?.[i] || 0) * (time_s[i] - time_s[i - 1]);
    most_m = told && beginsAnew(at_m, before_m, most_m) ? at_m : Math.max(most_m, at_m);
    if (most_m - at_m > ROCKS_m)
      throw new InputError([
        {
          path: `log.${i + 1}`,
          message: `here it has run back by more than ${ROCKS_m} m: cut the log where the train turns, and compare each way by itself`,
        },
      ]);
  }
}
