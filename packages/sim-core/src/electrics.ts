import { interpolate } from "./numeric/tables.js";
import { emfLoaded_V } from "./parts/battery.js";
import { COPPER_pK } from "./parts/constants.js";
import type { Motor } from "./parts/motor.js";
import { AVAILABLE, CASE, type Instant, type Mode, POLARISATION, WINDING } from "./state.js";
import type { Train } from "./train.js";

/**
 * Battery, cables, controller and motor solved together at one instant. The chopper's input is filtered, so the
 * battery sees duty times motor current:
 *
 *     D (E - Rs (D I + Iaux)) = k(I) ω + I R + Vbrush(I),   0 ≤ D ≤ lever,   I ≥ 0
 *
 * Every limit is met exactly, by the smallest current or duty that meets it; where two limits take over from each
 * other the answer bends but does not jump.
 */
export function solveElectrics(
  train: Train,
  mode: Mode,
  lever: number,
  y: Float64Array,
  motor_radps: number,
  now: Instant,
): void {
  const { battery, motor, controller } = train;
  const flux = 1 + motor.fluxPerKelvin_pK * (y[CASE] - 20);
  const winding_ohm = motor.resistance20_ohm * (1 + COPPER_pK * (y[WINDING] - 20));
  const path_ohm = winding_ohm + train.motorPath_ohm;
  const emf_V = emfLoaded_V(battery, y[AVAILABLE] / train.availableFull_C) - battery.polarisation_ohm * y[POLARISATION];
  const standing_A = mode.connected ? train.standing_A : 0;
  const open_V = emf_V - train.source_ohm * standing_A;

  let motor_A = 0;
  let duty = 0;
  now.limitedBy = "lever";
  if (mode.powered && lever > 0) {
    const source_ohm = train.source_ohm;
    duty = lever;
    motor_A = currentAtVolts(motor, flux, motor_radps, path_ohm + duty * duty * source_ohm, duty * open_V);
    if (lever >= 1) now.limitedBy = "duty";
    if (motor_A === 0) now.limitedBy = "no_load_speed";
    else if (2 * duty * source_ohm * motor_A > open_V) now.limitedBy = "battery";
    if (motor_A > controller.motorLimit_A) {
      now.limitedBy = "motor_current";
      motor_A = controller.motorLimit_A;
      duty = dutyFor(motorVolts(motor, flux, motor_radps, path_ohm, motor_A), motor_A, open_V, source_ohm);
    }
    if (duty * motor_A > controller.batteryLimit_A) {
      now.limitedBy = "battery_current";
      const supply_V = open_V - source_ohm * controller.batteryLimit_A;
      motor_A = currentAtPower(motor, flux, motor_radps, path_ohm, supply_V * controller.batteryLimit_A);
      duty = controller.batteryLimit_A / motor_A;
    }
    // Turned backwards the motor makes current through the freewheel path that no controller can hold lower.
    const plugging_A = motor_radps < 0 ? currentAtVolts(motor, flux, motor_radps, path_ohm, 0) : 0;
    if (plugging_A > motor_A) {
      now.limitedBy = "plugging";
      motor_A = plugging_A;
      duty = 0;
    }
  }
  const battery_A = duty * motor_A + standing_A;
  now.emf_V = emf_V;
  now.duty = duty;
  now.motor_A = motor_A;
  now.battery_A = battery_A;
  now.terminal_V = emf_V - battery.resistance_ohm * battery_A;
  now.supply_V = emf_V - train.source_ohm * battery_A;
  now.motor_V = duty * now.supply_V;
  now.winding_ohm = winding_ohm;
  now.flux_NmpA = flux * interpolate(motor.current_A, motor.flux_NmpA, motor_A);
  now.brush_V = interpolate(motor.current_A, motor.brush_V, motor_A);
  now.airGap_Nm = now.flux_NmpA * motor_A;
}

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
