import { currentForTorque, dutyFor, motorVolts } from "../drive/circuit.js";
import { shaftFor_N, throughMeshes_N } from "../drive/meshes.js";
import { contactAt_N } from "../loop/grip.js";
import { fluxFactor } from "../parts/motor.points.js";
import * as at from "../state.js";
import type { Working } from "../working.js";
import { GRIP_SHARE } from "./hands.js";

/** The driver looks up and moves the lever this often, s. */
export const DRIVER_s = 0.1;
/** Should it slip all the same, he asks half the sliding grip. */
const EASED_SHARE = 0.5;
/** The lever is never wholly shut while pull is wanted: that would open the circuit. */
const LEAST_LEVER = 1e-3;

/** Where the lever must be to ask a force of the rail, as far as the rail can pass it on; tells whether that is less. */
export function leverForSpeed(w: Working, asked_N: number): number {
  const { now, mode, train } = w;
  if (mode.wheels !== 0) {
    const eased_N = mode.wheels * EASED_SHARE * now.slidingGrip_N;
    return leverForShaft(w, shaftFor_N(train.meshes, eased_N, 0, wayOf(mode)), w.y[at.RIM_SPEED]);
  }
  const wanted_N = shaftForContact_N(w, asked_N, 0);
  const most_N = shaftForContact_N(w, contactAtGrip_N(w, GRIP_SHARE), 0);
  const least_N = Math.min(0, shaftForContact_N(w, contactAtGrip_N(w, -GRIP_SHARE), now.brakeRim_N));
  w.minding = wanted_N > most_N || wanted_N < least_N;
  // A motor pulls harder as it slows: at the limit of grip he leaves room for what it will pull when he looks again, coming
  // in to a stop for what it will on the way there.
  const ahead_s = w.minding ? DRIVER_s : w.stopping ? DRIVER_s / 2 : 0;
  const slowing_mps = Math.min(0, now.acceleration_mps2) * ahead_s;
  return leverForShaft(w, Math.min(Math.max(wanted_N, least_N), most_N), w.y[at.SPEED] + slowing_mps);
}

/** What the driven wheels can pass on to the rail for their brakes, beside a force at the motor's shaft, N. */
export function leftForBrakes_N(w: Working, shaft_N: number): number {
  return brakesMissing_N(w, shaft_N, contactAtGrip_N(w, -GRIP_SHARE));
}

/** What brakes must add to a force at the motor's shaft for the rail to give what is asked of it, N. */
export function brakesMissing_N(w: Working, shaft_N: number, asked_N: number): number {
  const { meshes } = w.train;
  const speedingUp_mps2 = speedingUpAt_mps2(w, asked_N);
  const wheels_N = throughMeshes_N(meshes, shaft_N, speedingUp_mps2, wayOf(w.mode));
  return wheels_N - meshes.turning_kg[meshes.efficiency.length] * speedingUp_mps2 - asked_N;
}

/** The force at the motor's shaft for one of the rail, with a brake on the driven wheels: turning parts speed up too. */
function shaftForContact_N(w: Working, contact_N: number, brake_N: number): number {
  const { meshes } = w.train;
  const speedingUp_mps2 = speedingUpAt_mps2(w, contact_N);
  const wheels_N = contact_N + brake_N + meshes.turning_kg[meshes.efficiency.length] * speedingUp_mps2;
  return shaftFor_N(meshes, wheels_N, speedingUp_mps2, wayOf(w.mode));
}

/** What the train does on a force of the rail; standing, it does not move yet. */
const speedingUpAt_mps2 = (w: Working, contact_N: number): number =>
  w.mode.train === 0 ? 0 : (contact_N - resisting_N(w)) / w.train.translating_kg;

const resisting_N = ({ now, mode }: Working): number =>
  now.gravity_N + now.air_N + now.rolling_N + mode.train * now.curves_N;

/** The force of the rail that is a share of its static grip. */
const contactAtGrip_N = (w: Working, share: number): number =>
  contactAt_N(w, share * w.train.adhesion.static, resisting_N(w));

/** The way the rims turn, or are to turn. */
const wayOf = ({ rim }: at.Mode): number => (rim === 0 ? 1 : rim);

/** Where the lever must be for a force at the motor's shaft, as seen at the tread; full where the battery cannot give it. */
function leverForShaft(w: Working, shaft_N: number, rim_mps: number): number {
  const { train, now, y } = w;
  const { gears, motor, radius_m } = train;
  const motor_radps = (rim_mps * gears.ratio) / radius_m;
  const drag_Nm = wayOf(w.mode) * motor.drag_Nm + motor.dragPerSpeed_Nms * motor_radps;
  const airGap_Nm = (shaft_N * radius_m) / gears.ratio + drag_Nm;
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
