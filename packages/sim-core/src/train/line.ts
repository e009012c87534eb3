import { G_mps2 } from "../parts/constants.js";
import { onTheLine, stretchAt, type Track } from "../parts/track.js";
import type { Rolling } from "./rolling.js";

/** A gradient as a train feels it, and where its head is then. */
export interface Felt {
  /** Pull of gravity over weight, uphill +. */
  readonly share: number;
  readonly chainage_m: number;
}

/** Gradients that a whole train feels, by the height and the curvature under its own length. */
export interface Gradients {
  /** Steepest uphill: the ruling gradient. */
  readonly up: Felt;
  /** Steepest downhill, negative. */
  readonly down: Felt;
  /** Steepest uphill with curve resistance added. */
  readonly compensated: Felt;
}

const known = new WeakMap<Track, WeakMap<Rolling, Gradients>>();

/**
 * The gradients felt with the head at every place where they can be greatest: between two places at which a coupling
 * passes a post they change evenly. Worked out once for each train on a track: a long survey has many posts.
 */
export function gradientsFelt(train: Rolling, track: Track): Gradients {
  const onTrack = known.get(track) ?? new WeakMap<Rolling, Gradients>();
  known.set(track, onTrack);
  const felt = onTrack.get(train) ?? lookForGradients(train, track);
  onTrack.set(train, felt);
  return felt;
}

function lookForGradients(train: Rolling, track: Track): Gradients {
  const weight_N = train.mass_kg * G_mps2;
  const felt = { up: worst(), down: worst(), compensated: worst() };
  // From post to post the head moves on with each coupling at the post, and so does what stands under every other.
  const hints = Array.from(train.ends_m, () => new Int32Array(train.ends_m.length));
  eachBend(train, track, (head_m, end) => {
    const gravity = gravityAt_N(train, track, head_m, hints[end]) / weight_N;
    const curves = curvesAt_N(train, track, head_m, hints[end]) / weight_N;
    if (gravity > felt.up.share) felt.up = { share: gravity, chainage_m: onTheLine(track, head_m) };
    if (-gravity > felt.down.share) felt.down = { share: -gravity, chainage_m: onTheLine(track, head_m) };
    if (gravity + curves > felt.compensated.share)
      felt.compensated = { share: gravity + curves, chainage_m: onTheLine(track, head_m) };
  });
  return { ...felt, down: { ...felt.down, share: -felt.down.share } };
}

/** The head's place each time a coupling passes a post, by posts and then by couplings (`end`, the first in front). */
function eachBend(train: Rolling, track: Track, meet: (head_m: number, end: number) => void): void {
  const circuit = track.kind === "circuit";
  for (const post_m of track.distance_m) {
    for (let end = 0; end < train.ends_m.length; end++) {
      const head_m = post_m + train.ends_m[end];
      if (circuit || (head_m >= train.length_m && head_m <= track.length_m)) meet(head_m, end);
    }
  }
}

/**
 * Where the head stands each time a coupling passes a post. In between, gravity and curves change evenly. In no order; on
 * a circuit some lie beyond the lap.
 */
export function bendsFelt_m(train: Rolling, track: Track): number[] {
  const bends_m: number[] = [];
  eachBend(train, track, (head_m) => bends_m.push(head_m));
  return bends_m;
}

/**
 * Pull of gravity on the whole train with its head at a place, uphill +, N.
 * @param hints near which stretch each coupling may stand; kept up to date for the next place
 */
export const gravityAt_N = (train: Rolling, track: Track, head_m: number, hints?: Int32Array): number =>
  forceOver(train.gravity_Npm, track, track.height_m, train, head_m, hints);

/** Curve resistance of the whole train with its head at a place, N. */
export const curvesAt_N = (train: Rolling, track: Track, head_m: number, hints?: Int32Array): number =>
  forceOver(train.curving_Nprad, track, track.turned_rad, train, head_m, hints);

const worst = (): Felt => ({ share: Number.NEGATIVE_INFINITY, chainage_m: 0 });

function forceOver(
  perMetre: Float64Array,
  track: Track,
  values: Float64Array,
  { ends_m }: Rolling,
  head_m: number,
  hints: Int32Array = new Int32Array(ends_m.length),
): number {
  let sum = 0;
  let front = valueAt(track, values, head_m - ends_m[0], hints, 0);
  for (let i = 0; i < perMetre.length; i++) {
    const back = valueAt(track, values, head_m - ends_m[i + 1], hints, i + 1);
    sum += perMetre[i] * (front - back);
    front = back;
  }
  return sum;
}

function valueAt(track: Track, values: Float64Array, along_m: number, hints: Int32Array, end: number): number {
  const x = onTheLine(track, along_m);
  const i = stretchAt(track, x, hints[end]);
  hints[end] = i;
  const { distance_m: d } = track;
  const lap = Math.round((along_m - x) / track.length_m) * (values[values.length - 1] - values[0]);
  return values[i] + ((values[i + 1] - values[i]) * (x - d[i])) / (d[i + 1] - d[i]) + lap;
}

/** Metres climbed in one lap, or from the first post to the last. */
export function climb_m(track: Track): number {
  let climb = 0;
  for (let i = 1; i < track.height_m.length; i++) climb += Math.max(0, track.height_m[i] - track.height_m[i - 1]);
  return climb;
}
