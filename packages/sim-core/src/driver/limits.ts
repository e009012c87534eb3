import { onTheLine, stretchAt, type Track } from "../parts/track.js";
import * as at from "../state.js";
import { shutLever, type Working } from "../working.js";
import { approachMargin_Jpkg, approachTo } from "./approach.js";
import { type Approach, approachEnergy_Jpkg, type LimitAhead } from "./curve.js";
import { hasServiceBrake } from "./hands.js";

/** Further ahead than this nobody slows for a limit yet, m. */
const LOOKS_AHEAD_m = 500;
/** Up to so many times the plan's speed; a train that runs faster still is braked in any case. */
const OVER = 1.5;

const lower = new WeakMap<Track, Int32Array>();

/**
 * For each stretch of a line the next one ahead with a lower limit, -1 where there is none; on a circuit counted on beyond
 * the lap. Those of a stretch, and of that one, and so on, are all that a driver need look at.
 */
function nextLower(track: Track): Int32Array {
  const known = lower.get(track);
  if (known) return known;
  const count = track.distance_m.length - 1;
  const next = new Int32Array(count).fill(-1);
  const waiting: number[] = [];
  const round = track.kind === "circuit" ? 2 * count : count;
  for (let i = 0; i < round; i++) {
    while (waiting.length > 0 && track.limit_mps[waiting[waiting.length - 1] % count] > track.limit_mps[i % count]) {
      const from = waiting.pop() as number;
      if (from < count) next[from] = i;
    }
    waiting.push(i);
  }
  lower.set(track, next);
  return next;
}

/** Stretches of one limit, however many posts stand in them, from edge to edge. */
interface LimitStretches {
  readonly edges_m: Float64Array;
  readonly limit_mps: Float64Array;
}

const limited = new WeakMap<Track, LimitStretches>();

/** A driver looks under the whole train ten times a second: at stretches, not at posts. */
export function stretchesOfLimits(track: Track): LimitStretches {
  const known = limited.get(track);
  if (known) return known;
  const { distance_m: d, limit_mps } = track;
  const begins = Array.from(d.subarray(0, d.length - 1).keys()).filter(
    (i) => i === 0 || limit_mps[i] !== limit_mps[i - 1],
  );
  const made = {
    edges_m: Float64Array.from([...begins.map((i) => d[i]), d[d.length - 1]]),
    limit_mps: Float64Array.from(begins, (i) => limit_mps[i]),
  };
  limited.set(track, made);
  return made;
}

/** Begins to slow for the limit ahead that cannot wait until the driver looks again; whatever the ramp, a lever can be shut. */
export function lookForLimits(w: Working, look_s: number): void {
  if (w.easing && w.y[at.POSITION] >= w.easing.at_m) w.easing = undefined;
  const first = limitToEaseFor(w, look_s);
  if (!w.easing && first) shutLever(w);
  w.easing = first;
}

/**
 * The lower limit ahead that the train must slow for first. One that it has begun to slow for stays until its head is there;
 * then the limit is under the train.
 * @param look_s until the driver looks again
 */
export function limitToEaseFor(w: Working, look_s: number): LimitAhead | undefined {
  const { track, y, plan } = w;
  const head_m = y[at.POSITION];
  const next = nextLower(track);
  const along_m = onTheLine(track, head_m);
  let first = w.easing;
  let least = first ? energyAt(first, head_m) : Number.POSITIVE_INFINITY;
  for (let i = next[stretchAt(track, along_m, w.hints[0])]; i >= 0; ) {
    const post = i % next.length;
    const at_m = head_m - along_m + track.distance_m[post] + (i - post > 0 ? track.length_m : 0);
    if (at_m - head_m > LOOKS_AHEAD_m) break;
    if (track.limit_mps[post] < plan.speed_mps) {
      const ahead = { at_m, curve: curveTo(w, post, at_m) };
      const energy = energyAt(ahead, head_m);
      if (energy < least && approachMargin_Jpkg(w, ahead.curve, at_m, y, look_s) < 0) {
        first = ahead;
        least = energy;
      }
    }
    const further = next[post];
    i = further < 0 ? -1 : further + i - post;
    if (i >= 2 * next.length) break;
  }
  return first;
}

const energyAt = ({ at_m, curve }: LimitAhead, head_m: number): number => approachEnergy_Jpkg(curve, head_m - at_m);

/** The curve down to a limit, worked out once for each limit, way and load. */
function curveTo(w: Working, post: number, at_m: number): Approach {
  const key = `limit ${post} ${w.returning} ${w.aboard}`;
  const known = w.approaches.get(key);
  if (known) return known;
  const limit_mps = w.track.limit_mps[post];
  const top_mps = OVER * w.plan.speed_mps;
  const found = approachTo(w, at_m, { braking: hasServiceBrake(w), limit_mps, top_mps, room: false });
  w.approaches.set(key, found);
  return found;
}
