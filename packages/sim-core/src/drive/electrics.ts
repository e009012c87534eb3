import { interpolate, lookUp } from "../numeric/tables.js";
import { accepted_A, emfLoaded_V, labelShare, terminal_V } from "../parts/battery.js";
import { fluxFactor, motorResistance_ohm } from "../parts/motor.points.js";
import { AVAILABLE, CASE, type Instant, type Mode, POLARISATION, WINDING } from "../state.js";
import type { Train } from "../train/train.js";
import { currentAtPower, currentAtVolts, dutyFor, motorVolts, shortedCurrent } from "./circuit.js";
import { excite } from "./excitation.js";
import { brakeCurrent } from "./generating.js";

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
  const { battery, motor } = train;
  const flux = fluxFactor(motor, y[CASE]);
  const winding_ohm = motorResistance_ohm(motor, y[WINDING]);
  const path_ohm = winding_ohm + train.motorPath_ohm;
  const available = labelShare(battery, y[AVAILABLE] / train.availableFull_C);
  const rested_V = lookUp(battery.rested, available);
  // The knee is an effect of load: while the motor feeds back it is left out, or charging would make energy.
  const well_V = mode.braking || available >= battery.kneeShare ? rested_V : emfLoaded_V(battery, available);
  const emf_V = well_V - battery.polarisation_ohm * y[POLARISATION];
  const standing_A = mode.connected ? train.standing_A : 0;
  const open_V = emf_V - train.source_ohm * standing_A;

  now.motor_A = 0;
  now.duty = 0;
  now.limitedBy = "lever";
  now.excitation_V = Number.POSITIVE_INFINITY;
  if (mode.braking)
    brakeCurrent(train, mode, -lever, flux, motor_radps, path_ohm, open_V, accepted_A(battery, available), now);
  else if (mode.powered) driveCurrent(train, mode, lever, flux, motor_radps, path_ohm, open_V, now);

  const motor_A = now.motor_A;
  const battery_A = now.duty * motor_A + standing_A;
  now.rested_V = rested_V;
  now.emf_V = emf_V;
  now.battery_A = battery_A;
  now.terminal_V = terminal_V(battery, well_V, y[POLARISATION], battery_A);
  now.supply_V = emf_V - train.source_ohm * battery_A;
  now.winding_ohm = winding_ohm;
  now.flux_NmpA = flux * interpolate(motor.current_A, motor.flux_NmpA, Math.abs(motor_A));
  now.brush_V = Math.sign(motor_A) * interpolate(motor.current_A, motor.brush_V, Math.abs(motor_A));
  now.airGap_Nm = now.flux_NmpA * motor_A;
  now.motor_V = motor_A === 0 ? 0 : now.flux_NmpA * motor_radps + path_ohm * motor_A + now.brush_V;
}

/** Driving: the lever's duty, unless a limit asks for less. */
function driveCurrent(
  train: Train,
  mode: Mode,
  lever: number,
  flux: number,
  motor_radps: number,
  path_ohm: number,
  open_V: number,
  now: Instant,
): void {
  const { motor, controller, source_ohm } = train;
  let duty = lever;
  const total_ohm = path_ohm + duty * duty * source_ohm;
  // Which way it turns is the mode's: the speed may look a little past its rest.
  if (motor.kind === "series" && mode.rim < 0) excite(motor, mode.excited, motor_radps, total_ohm, duty * open_V, now);
  else now.motor_A = currentAtVolts(motor, flux, motor_radps, total_ohm, duty * open_V);
  let motor_A = now.motor_A;
  if (lever >= 1) now.limitedBy = "duty";
  if (motor_A === 0) now.limitedBy = "no_load_speed";
  else if (2 * duty * source_ohm * motor_A > open_V) now.limitedBy = "battery";
  if (motor_A > controller.motorLimit_A) {
    now.limitedBy = "motor_current";
    motor_A = controller.motorLimit_A;
    const needed_V = motorVolts(motor, flux, motor_radps, path_ohm, motor_A);
    if (needed_V >= 0) duty = dutyFor(needed_V, motor_A, open_V, source_ohm);
    else {
      // Turned backwards the motor makes current through the freewheel path that no controller can hold lower.
      now.limitedBy = "plugging";
      motor_A = shortedCurrent(motor, flux, motor_radps, path_ohm, motor_A);
      duty = 0;
    }
  }
  if (duty * motor_A > controller.batteryLimit_A) {
    now.limitedBy = "battery_current";
    const supply_V = open_V - source_ohm * controller.batteryLimit_A;
    motor_A = currentAtPower(motor, flux, motor_radps, path_ohm, supply_V * controller.batteryLimit_A);
    duty = controller.batteryLimit_A / motor_A;
  }
  now.motor_A = motor_A;
  now.duty = duty;
}
