import { approachAcceleration_mps2, approachEnergy_Jpkg, SHARE_USED } from "./approach.js";
import { currentForTorque, dutyFor, motorVolts } from "./circuit.js";
import { shown } from "./errors.js";
import { contactAt_N } from "./grip.js";
import { brakeFor, GRIP_SHARE, hasServiceBrake, holdOn, lettingOff } from "./hands.js";
import { motion } from "./motion.js";
import { rim_N } from "./parts/gears.js";
import { fluxFactor } from "./parts/motor.points.js";
import { onTheLine, stretchAt } from "./parts/track.js";
import * as at from "./state.js";
import { log, moveLever, shutLever, type Working } from "./working.js";

/** The driver looks up and moves the lever this often, s. */
export const DRIVER_s = 0.1;
/** He closes the gap to the speed he wants in about this time, s (common practice, no source). */
const CLOSES_GAP_s = 1.5;
/** To start he asks for this much more than what holds the train. */
const BREAKAWAY_HAND = 1.05;
/** Should it slip all the same, he asks half the sliding grip. */
const EASED_SHARE = 0.5;
/** Faster than wanted by this factor, for this long, is told. */
const TOO_FAST = 1.1;
const BORNE_s = 3;
/** Walking pace, for drawing up to a mark, m/s. */
const DRAW_UP_mps = 0.5;
/** The lever is never wholly shut while pull is wanted: that would open the circuit. */
const LEAST_LEVER = 1e-3;

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
  const coasting = w.stopping && !(toSpeed && hasServiceBrake(w));
  const asked_N = toSpeed && !coasting ? forceForSpeed_N(w) : 0;
  moveLever(w, coasting ? 0 : toSpeed ? leverForSpeed(w, asked_N) : plan.lever, DRIVER_s);
  if (mode.train === 0) holdUntilItPulls(w);
  else if (w.stopping && aboutToRollBack(w)) holdOn(w);
  else brakeFor(w, asked_N < 0 ? leftToBrakes_N(w, asked_N) : 0);
}

/**
 * Coming to rest where gravity would pull it back at once: the brake must begin to bite as it stands, so it is put on its
 * delay before.
 */
function aboutToRollBack(w: Working): boolean {
  const { now, train } = w;
  if (now.gravity_N + now.air_N <= train.breakaway_N + now.curves_N) return false;
  const delay_s = Math.max(0, ...train.brakes.map((brake) => brake.delay_s));
  return w.y[at.SPEED] < -now.acceleration_mps2 * (delay_s + 2 * DRIVER_s);
}

/** The lever alone, as the plan has it, with every brake off: what goes on until somebody acts. */
export function driveOn(w: Working): void {
  moveLever(w, Number.isNaN(w.plan.speed_mps) ? w.plan.lever : leverForSpeed(w, forceForSpeed_N(w)), DRIVER_s);
}

/** A standing train is held until the pull of the lever, as it now is, can take it. */
function holdUntilItPulls(w: Working): void {
  const { now, train } = w;
  motion(w, scratch, w.y, w.time_s);
  const own_N = train.breakaway_N + now.curves_N;
  if (now.rim_N >= now.gravity_N + now.air_N + own_N || now.gravity_N + now.air_N + own_N < 0) brakeFor(w, 0);
}

/** What is left of a wish to slow after the motor's drag, and its brake, have done their part. */
function leftToBrakes_N(w: Working, asked_N: number): number {
  const { train, now, y } = w;
  // The motor answers the lever at once: what it now does is not left to the brakes as well.
  motion(w, scratch, w.y, w.time_s);
  const { motor, gears, radius_m } = train;
  const motor_radps = (y[at.SPEED] * gears.ratio) / radius_m;
  const drag_Nm = motor.drag_Nm + motor.dragPerSpeed_Nms * motor_radps;
  const electric_Nm = w.mode.braking ? Math.min(0, now.airGap_Nm) : 0;
  return rim_N(gears, radius_m, electric_Nm - drag_Nm, 1) - asked_N;
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
  log(w, "too_fast", `${shown(speed_mps, "m/s")} where ${shown(target_mps, "m/s")} is wanted`);
}

/** Nothing more to come: the train stands, the lever is where it is wanted, and nothing is about to change that. */
export const leverSettled = (w: Working): boolean =>
  w.lever > 0 && Math.abs(w.lever - w.leverWanted) < 1e-9 && !lettingOff(w);

function leverForSpeed(w: Working, asked_N: number): number {
  const { now, mode } = w;
  if (mode.wheels !== 0) return leverForForce(w, mode.wheels * EASED_SHARE * now.slidingGrip_N, w.y[at.RIM_SPEED]);
  const most_N = forceAtGrip_N(w, GRIP_SHARE);
  const least_N = Math.min(0, forceAtGrip_N(w, -GRIP_SHARE) + now.brakeRim_N);
  w.minding = asked_N > most_N || asked_N < least_N;
  // A motor pulls harder as it slows: at the limit of grip he leaves room for what it will pull when he looks again, coming
  // in to a stop for what it will on the way there.
  const ahead_s = w.minding ? DRIVER_s : w.stopping ? DRIVER_s / 2 : 0;
  const slowing_mps = Math.min(0, now.acceleration_mps2) * ahead_s;
  return leverForForce(w, Math.min(Math.max(asked_N, least_N), most_N), w.y[at.SPEED] + slowing_mps);
}

/** Force at the rims that asks the rail for a share of the static grip; part of it only speeds up the rims. */
function forceAtGrip_N(w: Working, share: number): number {
  const { train, now, mode } = w;
  const resisting_N = now.gravity_N + now.air_N + now.rolling_N + mode.train * now.curves_N;
  const contact_N = contactAt_N(w, share * train.adhesion.static, resisting_N);
  return mode.train === 0 ? contact_N : contact_N + (train.rim_kg * (contact_N - resisting_N)) / train.translating_kg;
}

/** Feed-forward: what the road takes, and what the wanted acceleration takes beside it. */
function forceForSpeed_N(w: Working): number {
  const { plan, train, now, mode } = w;
  const target_mps = targetSpeed_mps(w);
  const curve = w.stopping ? w.approach : undefined;
  const toMark_m = w.y[at.POSITION] - (w.stop?.at_m ?? 0);
  const curve_mps = curve ? Math.sqrt(2 * approachEnergy_Jpkg(curve, toMark_m)) : target_mps;
  const curve_mps2 = curve ? approachAcceleration_mps2(curve, toMark_m) : 0;
  const gap_mps = Math.min(target_mps, curve_mps) - w.y[at.SPEED];
  const wanted_mps2 = Math.min(
    // Uphill, or against much drag, the curve may fall harder than an ordinary stop: he lets it, with as much in hand.
    Math.max(curve_mps2 + gap_mps / CLOSES_GAP_s, Math.min(-plan.serviceBraking_mps2, curve_mps2 / SHARE_USED)),
    plan.acceleration_mps2,
  );
  const running_N = train.rolling_N + train.rolling_Nspm * w.y[at.SPEED] + now.curves_N;
  const asked_N = train.effective_kg * wanted_mps2 + now.gravity_N + now.air_N + running_N;
  return mode.train === 0
    ? Math.max(asked_N, BREAKAWAY_HAND * (train.breakaway_N + now.curves_N) + now.gravity_N + now.air_N)
    : asked_N;
}

/** The least of the plan's speed and every limit under any part of the train; walking pace to draw up to a mark. */
export function targetSpeed_mps(w: Working): number {
  const { track, train, plan } = w;
  let target_mps = plan.speed_mps;
  const head_m = w.y[at.POSITION];
  for (let rear_m = head_m - train.length_m, x = rear_m; x <= head_m; ) {
    const along_m = onTheLine(track, x);
    const i = stretchAt(track, along_m, w.hints[w.hints.length - 1]);
    if (track.limit_mps[i] < target_mps) target_mps = track.limit_mps[i];
    x += Math.max(track.distance_m[i + 1] - along_m, 1e-9);
    if (i === track.distance_m.length - 2 && track.kind === "end-to-end") break;
  }
  return w.drawingUp ? Math.min(target_mps, DRAW_UP_mps) : target_mps;
}

/** Where the lever must be for a force at the driven rims; full where the battery cannot give it. */
function leverForForce(w: Working, force_N: number, rim_mps: number): number {
  const { train, now, mode, y } = w;
  const { gears, motor, radius_m } = train;
  const loss = force_N >= 0 ? 1 / gears.efficiency : gears.efficiency;
  const motor_radps = (rim_mps * gears.ratio) / radius_m;
  const drag_Nm = (mode.rim === 0 ? 1 : mode.rim) * motor.drag_Nm + motor.dragPerSpeed_Nms * motor_radps;
  const airGap_Nm = (force_N * radius_m * loss) / gears.ratio + drag_Nm;
  const flux = fluxFactor(motor, y[at.CASE]);
  if (airGap_Nm <= 0) {
    if (train.controller.electricBrake === "none") return 0;
    return -Math.min(1, -airGap_Nm / (flux * motor.flux_NmpA[0]) / train.controller.motorLimit_A);
  }
  const current_A = currentForTorque(motor, flux, airGap_Nm);
  const motor_V = motorVolts(motor, flux, motor_radps, now.winding_ohm + train.motorPath_ohm, current_A);
  const duty = dutyFor(motor_V, current_A, now.emf_V - train.source_ohm * train.standing_A, train.source_ohm);
  return Number.isNaN(duty) ? 1 : Math.min(Math.max(duty, LEAST_LEVER), 1);
}
