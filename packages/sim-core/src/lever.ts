import { currentForTorque, dutyFor, motorVolts } from "./circuit.js";
import { contactAt_N } from "./grip.js";
import { GRIP_SHARE } from "./hands.js";
import { fluxFactor } from "./parts/motor.points.js";
import * as at from "./state.js";
import type { Working } from "./working.js";

/** The driver looks up and moves the lever this often, s. */
export const DRIVER_s = 0.1;
/** Should it slip all the same, he asks half the sliding grip. */
const EASED_SHARE = 0.5;
/** The lever is never wholly shut while pull is wanted: that would open the circuit. */
const LEAST_LEVER = 1e-3;

/** Where the lever must be to ask a force of the motor, as far as the rail can pass it on; tells whether that is less. */
export function leverForSpeed(w: Working, asked_N: number): number {
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
export function forceAtGrip_N(w: Working, share: number): number {
  const { train, now, mode } = w;
  const resisting_N = now.gravity_N + now.air_N + now.rolling_N + mode.train * now.curves_N;
  const contact_N = contactAt_N(w, share * train.adhesion.static, resisting_N);
  return mode.train === 0 ? contact_N : contact_N + (train.rim_kg * (contact_N - resisting_N)) / train.translating_kg;
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
