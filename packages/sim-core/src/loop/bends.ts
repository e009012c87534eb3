import { stretch } from "../numeric/tables.js";
import type { Track } from "../parts/track.js";
import * as at from "../state.js";
import type { Train } from "../train/train.js";
import type { Working } from "../working.js";

/** Gradients, and curvatures, closer than this are one. */
const ALIKE = 1e-9;
/** A bend no further off than this is as good as passed, m. */
const PASSED_m = 1e-6;

const known = new WeakMap<Track, Float64Array>();

/** Chainages of the posts at which gradient or curvature change, from 0 to less than the lap; looked for once on a track. */
export function bendsOf(track: Track): Float64Array {
  const bends_m = known.get(track) ?? lookForBends(track);
  known.set(track, bends_m);
  return bends_m;
}

function lookForBends({ kind, distance_m: d, height_m: h, turned_rad: b }: Track): Float64Array {
  const bends: number[] = [];
  const last = d.length - 2;
  const slope = (ys: Float64Array, i: number) => (ys[i + 1] - ys[i]) / (d[i + 1] - d[i]);
  for (let i = kind === "circuit" ? 0 : 1; i <= last; i++) {
    const before = i === 0 ? last : i - 1;
    const alike = (ys: Float64Array) => Math.abs(slope(ys, i) - slope(ys, before)) < ALIKE;
    if (!alike(h) || !alike(b)) bends.push(d[i]);
  }
  return Float64Array.from(bends);
}

/**
 * When a coupling next passes a post at which the line bends, if the train goes on as it now does. There what gravity and
 * curves ask of it changes its slope, and under a short vehicle all but leaps: a step that ends there loses nothing of it.
 */
export function lineAhead(w: Working): { nextBend_s(): number } {
  let track: Track | undefined;
  let train: Train | undefined;
  let way = 0;
  let bends: Float64Array = new Float64Array(0);
  let head_m = Number.NaN;

  return {
    nextBend_s() {
      const { mode, y, now, time_s } = w;
      if (mode.train === 0) return Number.POSITIVE_INFINITY;
      if (w.track !== track) bends = bendsOf(w.track);
      const left_m = way * (head_m - y[at.POSITION]);
      if (w.track !== track || w.train !== train || mode.train !== way || !(left_m > PASSED_m)) {
        track = w.track;
        train = w.train;
        way = mode.train;
        head_m = nextHead_m(track, train, bends, y[at.POSITION], way);
      }
      const along_m = way * (head_m - y[at.POSITION]);
      if (along_m === Number.POSITIVE_INFINITY) return along_m;
      const speed_mps = Math.max(0, way * y[at.SPEED]);
      const square = speed_mps * speed_mps + 2 * way * now.acceleration_mps2 * along_m;
      // Before it gets there it stands.
      if (!(square > 0)) return Number.POSITIVE_INFINITY;
      return time_s + (2 * along_m) / (speed_mps + Math.sqrt(square));
    },
  };
}

/**
 * Whether the drive has bent since it was last looked at: another limit holds the current, the power goes through the gears
 * the other way, or flux or brush drop have come to their next stretch. Pull and currents change their slopes there, and the
 * battery's current may have a cusp. With what `motion` last left in `now`.
 */
export function driveBefore({ now, train }: Working): { keep(): void; hasBent(): boolean } {
  const { current_A } = train.motor;
  const knot = () => stretch(current_A, Math.abs(now.motor_A), 0);
  let limitedBy = now.limitedBy;
  let pulls = true;
  let knotBefore = 0;
  return {
    keep() {
      limitedBy = now.limitedBy;
      pulls = now.rim_N >= 0;
      knotBefore = knot();
    },
    hasBent: () => now.limitedBy !== limitedBy || now.rim_N >= 0 !== pulls || knot() !== knotBefore,
  };
}

/** Where the head is when a coupling next passes a bend on its way; infinitely far where none lies there. */
function nextHead_m({ kind, length_m }: Track, { ends_m }: Train, bends: Float64Array, from_m: number, way: number) {
  let nearest_m = way * Number.POSITIVE_INFINITY;
  for (const end_m of ends_m) {
    const along_m = from_m - end_m + way * PASSED_m;
    const laps = kind === "circuit" ? Math.floor(along_m / length_m) : 0;
    const beyond = countTo(bends, along_m - laps * length_m);
    const i = way > 0 ? beyond : beyond - 1;
    const found = i >= 0 && i < bends.length;
    if (!found && (kind !== "circuit" || bends.length === 0)) continue;
    const bend_m = found ? bends[i] : way > 0 ? bends[0] + length_m : bends[bends.length - 1] - length_m;
    const head_m = bend_m + laps * length_m + end_m;
    if (way * (nearest_m - head_m) > 0) nearest_m = head_m;
  }
  return nearest_m;
}

/** How many of the rising values are no greater than `x`, by halves. */
function countTo(values: Float64Array, x: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}
