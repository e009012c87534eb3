import { interpolate } from "../numeric/tables.js";
import type { Motor } from "../parts/motor.js";

/** Volts the motor needs for a current: back-e.m.f., resistance and brushes. */
export const motorVolts = (
  motor: Motor,
  flux: number,
  motor_radps: number,
  path_ohm: number,
  current_A: number,
): number =>
  flux * interpolate(motor.current_A, motor.flux_NmpA, current_A) * motor_radps +
  path_ohm * current_A +
  interpolate(motor.current_A, motor.brush_V, current_A);

/**
 * The current that a voltage behind a resistance drives, the first at which k(I) ω + I R + Vbrush(I) reaches it: from
 * knot to knot that sum is straight. 0 where the back-e.m.f. is higher: the chopper passes current one way.
 *
 * There is one such current, but for a series motor turned backwards (excitation.ts).
 */
export function currentAtVolts(
  motor: Motor,
  flux: number,
  motor_radps: number,
  total_ohm: number,
  open_V: number,
): number {
  const { current_A, flux_NmpA, brush_V } = motor;
  let from_A = current_A[0];
  let missing_V = open_V - flux * flux_NmpA[0] * motor_radps - brush_V[0];
  if (missing_V <= 0) return 0;
  for (let i = 1; i < current_A.length; i++) {
    const to_A = current_A[i];
    const left_V = open_V - flux * flux_NmpA[i] * motor_radps - brush_V[i] - total_ohm * to_A;
    if (left_V <= 0) return from_A + ((to_A - from_A) * missing_V) / (missing_V - left_V);
    from_A = to_A;
    missing_V = left_V;
  }
  return from_A + missing_V / total_ohm;
}

/**
 * The current, from `least_A` up, of a motor that is turned backwards and shorted by the freewheel path: the first at
 * which winding and brushes take all that it makes. At `least_A` it makes more than they take.
 */
export function shortedCurrent(
  motor: Motor,
  flux: number,
  motor_radps: number,
  path_ohm: number,
  least_A: number,
): number {
  let from_A = least_A;
  let from_V = motorVolts(motor, flux, motor_radps, path_ohm, least_A);
  for (let i = 1; i < motor.current_A.length; i++) {
    const to_A = motor.current_A[i];
    if (to_A <= least_A) continue;
    const to_V = motorVolts(motor, flux, motor_radps, path_ohm, to_A);
    if (to_V >= 0) return from_A + ((to_A - from_A) * from_V) / (from_V - to_V);
    from_A = to_A;
    from_V = to_V;
  }
  return from_A - from_V / path_ohm;
}

/** The current at which the motor takes a power, V(I) I = P; between knots V is straight, so it is a quadratic. */
export function currentAtPower(
  motor: Motor,
  flux: number,
  motor_radps: number,
  path_ohm: number,
  power_W: number,
): number {
  const { current_A, flux_NmpA, brush_V } = motor;
  const last = current_A.length - 1;
  for (let i = 0; i <= last; i++) {
    const from_V = flux * flux_NmpA[i] * motor_radps + path_ohm * current_A[i] + brush_V[i];
    if (i < last) {
      const to_V = flux * flux_NmpA[i + 1] * motor_radps + path_ohm * current_A[i + 1] + brush_V[i + 1];
      if (to_V * current_A[i + 1] < power_W) continue;
      const slope_ohm = (to_V - from_V) / (current_A[i + 1] - current_A[i]);
      return rootOfPower(from_V - slope_ohm * current_A[i], slope_ohm, power_W);
    }
    return rootOfPower(from_V - path_ohm * current_A[i], path_ohm, power_W);
  }
  return 0;
}

/** I ≥ 0 of (V0 + R I) I = P. */
const rootOfPower = (at0_V: number, slope_ohm: number, power_W: number): number =>
  (2 * power_W) / (at0_V + Math.sqrt(at0_V * at0_V + 4 * slope_ohm * power_W));

/** Duty that puts volts on the motor at a current; NaN where the battery cannot: D = 2c / (B + √(B² - 4 Rs I c)). */
export function dutyFor(motor_V: number, motor_A: number, open_V: number, source_ohm: number): number {
  const root = open_V * open_V - 4 * source_ohm * motor_A * motor_V;
  return root < 0 ? Number.NaN : (2 * motor_V) / (open_V + Math.sqrt(root));
}

/** The current whose torque, before drag, is the one asked: k(I) I = T, a quadratic between knots. */
export function currentForTorque(motor: Motor, flux: number, airGap_Nm: number): number {
  const { current_A, flux_NmpA } = motor;
  const last = current_A.length - 1;
  const torque_Nm = airGap_Nm / flux;
  for (let i = 0; i < last; i++) {
    if (flux_NmpA[i + 1] * current_A[i + 1] < torque_Nm) continue;
    const slope = (flux_NmpA[i + 1] - flux_NmpA[i]) / (current_A[i + 1] - current_A[i]);
    return rootOfPower(flux_NmpA[i] - slope * current_A[i], slope, torque_Nm);
  }
  return torque_Nm / flux_NmpA[last];
}
