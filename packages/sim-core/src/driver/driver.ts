import { motorDrag_N } from "../drive/pull.js";
import { motion } from "../motion.js";
import { stretch } from "../numeric/tables.js";
import { onTheLine } from "../parts/track.js";
import * as at from "../state.js";
import { rollingAt_N } from "../train/rolling.js";
import { log, moveLever, shutLever, type Working } from "../working.js";
import { SHARE_USED } from "./approach.js";
import { approachAcceleration_mps2, approachEnergy_Jpkg } from "./curve.js";
import { brakeFor, brakesActIn_s, hasServiceBrake, holdOn, letOff, lettingOff } from "./hands.js";
import { brakesMissing_N, DRIVER_s, leftForBrakes_N, leverForSpeed } from "./lever.js";
import { limitToEaseFor, lookForLimits, stretchesOfLimits } from "./limits.js";

/** He closes the gap to the speed he wants in about this time, s (common practice, no source). */
const CLOSES_GAP_s = 1.5;
/** To start he asks for this much more than what holds the train. */
const BREAKAWAY_HAND = 1.05;
/** Faster than wanted by this factor, for this long, is told. */
const TOO_FAST = 1.1;
const BORNE_s = 3;
/** Within this share of the speed he wants he rolls along, and looks up again in so many tenths (common practice, no source). */
const AT_SPEED = 0.02;
const ROLLING_ALONG = 5;
/** A lever nearer than this to where it is wanted is there. */
const LEVER_ROUNDING = 1e-9;
/** Walking pace, for drawing up to a mark, m/s. */
const DRAW_UP_mps = 0.5;
/** Slower than this he no longer draws nearer the mark, but lets the train stop, m/s. */
const CREEP_mps = 0.01;
/** Coming in to a stop he has the brakes just rubbing, this share of each: their delay is over when they are wanted. */
const TOUCH = 0.001;

// Written over by every call: safe because nothing here waits.
const scratch = new Float64Array(at.SIZE);

/** One look and one move of the driver: where the lever should be, and as far towards it as the ramp lets it go. */
export function drive(w: Working): void {
  const { plan, mode } = w;
  w.minding = false;
  noteSpeed(w);
  const toSpeed = !Number.isNaN(plan.speed_mps);
  if (w.due_s.dwell < Number.POSITIVE_INFINITY || (w.stopping && mode.train === 0)) {
    shutLever(w);
    holdOn(w);
    return;
  }
  if (toSpeed && mode.train > 0) lookForLimits(w, DRIVER_s);
  const coasting = w.stopping && !(toSpeed && hasServiceBrake(w));
  const braking = (w.stopping || w.easing !== undefined) && !coasting && hasServiceBrake(w);
  const asked_N = toSpeed && !coasting ? forceForSpeed_N(w, 0) : 0;
  // The motor answers at once, the brakes later: of them he asks what will be wanted then, and does not pull meanwhile.
  const ofBrakes_N = braking ? forceForSpeed_N(w, brakesActIn_s(w)) : asked_N;
  const ofMotor_N = Math.min(asked_N, Math.max(0, ofBrakes_N));
  moveLever(w, coasting ? 0 : toSpeed ? leverForSpeed(w, ofMotor_N) : plan.lever, DRIVER_s);
  if ((ofBrakes_N >= 0 || w.train.brakes.length === 0) && rollsAlong(w)) w.looksIn = ROLLING_ALONG;
  if (mode.train === 0) holdUntilItPulls(w);
  else if (w.stopping && aboutToRollBack(w)) holdOn(w);
  else slow(w, ofBrakes_N < 0 ? leftToBrakes_N(w, ofBrakes_N) : 0, braking ? TOUCH : 0);
}

/** Nothing to do but hold the speed that is wanted, or leave the lever where it is. */
function rollsAlong(w: Working): boolean {
  const { mode, plan } = w;
  if (mode.train <= 0 || mode.wheels !== 0 || w.stopping || w.easing || w.drawingUp || w.minding) return false;
  if (Math.abs(w.lever - w.leverWanted) > LEVER_ROUNDING) return false;
  if (Number.isNaN(plan.speed_mps)) return true;
  const target_mps = targetSpeed_mps(w);
  if (Math.abs(w.y[at.SPEED] - target_mps) > AT_SPEED * target_mps) return false;
  return limitToEaseFor(w, ROLLING_ALONG * DRIVER_s) === undefined;
}

/**
 * Puts the brakes on, and does not pull against them: whatever the ramp, a lever can be shut. What the motor asks of the
 * driven wheels they cannot pass on for a brake as well, and wheels that slide are left alone, to turn again.
 */
export function slow(w: Working, force_N: number, least: number): void {
  if (force_N > 0 && w.lever > 0) shutLever(w);
  if (w.train.brakes.length === 0) return;
  const driven_N = w.mode.wheels === 0 ? leftForBrakes_N(w, Math.min(0, w.now.shaft_N)) : 0;
  brakeFor(w, force_N, driven_N, least);
}

/**
 * Coming to rest where gravity would pull it back at once: the brake must begin to bite as it stands, so it is put on its
 * delay before.
 */
function aboutToRollBack(w: Working): boolean {
  const { now, train } = w;
  if (now.gravity_N + now.air_N <= train.breakaway_N + now.curves_N) return false;
  return w.y[at.SPEED] < -now.acceleration_mps2 * (brakesActIn_s(w) + 2 * DRIVER_s);
}

/** The lever alone, as the plan has it, with every brake off: what goes on until somebody acts. */
export function driveOn(w: Working): void {
  moveLever(w, Number.isNaN(w.plan.speed_mps) ? w.plan.lever : leverForSpeed(w, forceForSpeed_N(w, 0)), DRIVER_s);
}

/** A standing train is held until the pull of the lever, as it now is, can take it. */
export function holdUntilItPulls(w: Working): void {
  const { now, train } = w;
  motion(w, scratch, w.y, w.time_s);
  const own_N = train.breakaway_N + now.curves_N;
  if (now.rim_N >= now.gravity_N + now.air_N + own_N || now.gravity_N + now.air_N + own_N < 0) letOff(w);
}

/** What is left of a wish to slow after the motor's drag, and its brake, have done their part. */
export function leftToBrakes_N(w: Working, asked_N: number): number {
  const { train, now, y } = w;
  // The motor answers the lever at once: what it now does is not left to the brakes as well.
  motion(w, scratch, w.y, w.time_s);
  if (w.mode.wheels !== 0) return now.contact_N - asked_N;
  return brakesMissing_N(w, w.mode.braking ? now.shaft_N : -motorDrag_N(train, y[at.SPEED]), asked_N);
}

/** Once for each time the train stays faster than its driver wants: without a brake there is nothing to hold it with. */
function noteSpeed(w: Working): void {
  const speed_mps = w.y[at.SPEED];
  if (Number.isNaN(w.plan.speed_mps)) return;
  const target_mps = targetSpeed_mps(w);
  if (speed_mps <= TOO_FAST * target_mps) w.fastSince_s = Number.NaN;
  else if (Number.isNaN(w.fastSince_s)) w.fastSince_s = w.time_s;
  if (w.time_s - w.fastSince_s < BORNE_s || Number.isNaN(w.fastSince_s)) return;
  w.fastSince_s = Number.POSITIVE_INFINITY;
  log(w, { kind: "too_fast", speed_mps, wanted_speed_mps: target_mps });
}

/** Nothing more to come: the train stands, the lever is where it is wanted, and nothing is about to change that. */
export const leverSettled = (w: Working): boolean =>
  w.lever > 0 && Math.abs(w.lever - w.leverWanted) < LEVER_ROUNDING && !lettingOff(w);

/**
 * Feed-forward, of the rail: what the road takes, and what the wanted acceleration takes beside it.
 * @param ahead_s it is wanted where, and as fast as, the train will be so much later if it goes on as now
 */
function forceForSpeed_N(w: Working, ahead_s: number): number {
  const { plan, now } = w;
  const speed_mps = w.y[at.SPEED];
  const then_mps = Math.max(0, speed_mps + now.acceleration_mps2 * ahead_s);
  const then_m = w.y[at.POSITION] + ((speed_mps + then_mps) / 2) * ahead_s;
  const target_mps = targetSpeed_mps(w);
  const { curve, mark_m } = tightest(w, then_m);
  const toMark_m = then_m - mark_m;
  const curve_mps = curve ? Math.sqrt(2 * approachEnergy_Jpkg(curve, toMark_m)) : target_mps;
  const curve_mps2 = curve ? approachAcceleration_mps2(curve, toMark_m) : 0;
  // The curve is one of places: a train slower than it comes down it more slowly. Asked for the curve's own slope it would
  // fall ever further below as both near rest, and stop short.
  const alongCurve_mps2 = curve_mps > 0 ? (curve_mps2 * Math.max(then_mps, CREEP_mps)) / curve_mps : curve_mps2;
  const gap_mps = Math.min(target_mps, curve_mps) - then_mps;
  const wanted_mps2 = Math.min(
    // Uphill, or against much drag, the curve may fall harder than an ordinary stop: he lets it, with as much in hand.
    Math.max(alongCurve_mps2 + gap_mps / CLOSES_GAP_s, Math.min(-plan.serviceBraking_mps2, curve_mps2 / SHARE_USED)),
    plan.acceleration_mps2,
  );
  return forceFor_N(w, wanted_mps2);
}

/** What the rail must give for the train to gain so much speed; standing, what starts it. */
export function forceFor_N(w: Working, wanted_mps2: number): number {
  const { train, now, mode } = w;
  const speed_mps = w.y[at.SPEED];
  const running_N = rollingAt_N(train, speed_mps) + now.curves_N;
  const asked_N = train.translating_kg * wanted_mps2 + now.gravity_N + now.air_N + running_N;
  return mode.train === 0
    ? Math.max(asked_N, BREAKAWAY_HAND * (train.breakaway_N + now.curves_N) + now.gravity_N + now.air_N)
    : asked_N;
}

/** Of the curves that the train is coming in on, to a stop and down to a limit, the one that lets it run least fast there. */
function tightest({ stopping, approach, stop, easing }: Working, head_m: number) {
  const toStop = { curve: stopping ? approach : undefined, mark_m: stop?.at_m ?? 0 };
  if (!easing) return toStop;
  const toLimit = { curve: easing.curve, mark_m: easing.at_m };
  if (!toStop.curve) return toLimit;
  const energy = ({ curve, mark_m }: typeof toLimit) => approachEnergy_Jpkg(curve, head_m - mark_m);
  return energy(toLimit) < energy({ ...toStop, curve: toStop.curve }) ? toLimit : toStop;
}

/** The least of the plan's speed and every limit under any part of the train; walking pace to draw up to a mark. */
export function targetSpeed_mps(w: Working): number {
  const { track, train, plan } = w;
  let target_mps = plan.speed_mps;
  const head_m = w.y[at.POSITION];
  const { edges_m, limit_mps } = stretchesOfLimits(track);
  const last = limit_mps.length - 1;
  for (let x = head_m - train.length_m; x <= head_m; ) {
    const along_m = onTheLine(track, x);
    const i = stretch(edges_m, along_m, 0);
    if (limit_mps[i] < target_mps) target_mps = limit_mps[i];
    x += Math.max(edges_m[i + 1] - along_m, 1e-9);
    if (i === last && track.kind === "end-to-end") break;
  }
  return w.drawingUp ? Math.min(target_mps, DRAW_UP_mps) : target_mps;
}
