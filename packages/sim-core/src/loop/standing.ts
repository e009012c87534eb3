import { rim_N } from "../parts/gears.js";
import type { Working } from "../working.js";

/** What the motor's torque brings to standing rims once its own friction is overcome. */
export const pullAtRest_N = (w: Working): number => Math.max(0, rimForwards_N(w));

/** Force at standing rims about to turn forwards: the motor's friction and the gears' loss are against it. */
export const rimForwards_N = ({ train, now }: Working): number =>
  rim_N(train.gears, train.radius_m, now.airGap_Nm - train.motor.drag_Nm, 1);

/** Force at standing rims about to turn backwards: both now help to hold. */
export const rimBackwards_N = ({ train, now }: Working): number =>
  rim_N(train.gears, train.radius_m, now.airGap_Nm + train.motor.drag_Nm, -1);

/**
 * What would move a standing train forwards, against which only `hold_N` stands. Pull and brake of the driven wheels
 * meet in their rims; what is left comes through the rail, and holds no more than that grips.
 */
export function leavingForwards_N(w: Working): number {
  const { mode, now } = w;
  const driven_N = Math.max(rimForwards_N(w) - now.brakeRim_N, -now.staticGrip_N);
  return (mode.wheels === 0 ? driven_N : now.contact_N) - now.gravity_N - now.air_N;
}

/** The same backwards. */
export function leavingBackwards_N(w: Working): number {
  const { mode, now } = w;
  const driven_N = Math.min(rimBackwards_N(w) + now.brakeRim_N, now.staticGrip_N);
  return now.gravity_N + now.air_N - (mode.wheels === 0 ? driven_N : now.contact_N);
}
