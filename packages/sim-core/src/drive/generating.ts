import { interpolate } from "../numeric/tables.js";
import type { Instant, Mode } from "../state.js";
import type { Train } from "../train/train.js";
import { currentAtVolts, dutyFor } from "./circuit.js";

/**
 * Braking with the motor: as a generator it makes k ω and drives a current the other way. The lever asks for a share
 * `asked` of the controller's motor current limit; never more than the motor makes shorted by its own circuit.
 *
 *     rheostatic     I ≤ (k ω - Vbrush) / (R + Rx); what the winding does not take goes into the resistor
 *     regenerative   the chopper steps the volts up: D (E + Rs D I - Rs Iaux) = k ω - I R - Vbrush, battery current -D I
 *
 * A battery that is nearly full stands at its limit of volts with next to no current, and the controller lets go.
 * @param accepted_A most current that the battery takes
 */
export function brakeCurrent(
  train: Train,
  mode: Mode,
  asked: number,
  flux: number,
  motor_radps: number,
  path_ohm: number,
  open_V: number,
  accepted_A: number,
  now: Instant,
): void {
  const { motor, controller } = train;
  const regenerative = controller.electricBrake === "regenerative";
  const made_V = flux * motor.flux_NmpA[0] * motor_radps;
  if (made_V <= 0 || (regenerative && mode.full)) {
    now.limitedBy = "no_load_speed";
    return;
  }
  const loop_ohm = path_ohm + (regenerative ? 0 : controller.brakeResistor_ohm);
  const most_A = currentAtVolts(motor, 0, 0, loop_ohm, made_V);
  let motor_A = asked * controller.motorLimit_A;
  now.limitedBy = "lever";
  if (motor_A > most_A) {
    motor_A = most_A;
    now.limitedBy = "no_load_speed";
  }
  if (regenerative) {
    const { battery, source_ohm } = train;
    // With its terminals at the limit the battery takes this much, the standing load besides.
    const emf_V = open_V + source_ohm * train.standing_A;
    const takes_A = Math.min(accepted_A, (controller.regenLimit_V - emf_V) / battery.resistance_ohm);
    const back_A = Math.max(0, Math.min(controller.regenLimit_A, takes_A + train.standing_A));
    const power_W = back_A === Number.POSITIVE_INFINITY ? back_A : (open_V + source_ohm * back_A) * back_A;
    const least_A = currentForPower(made_V - interpolate(motor.current_A, motor.brush_V, motor_A), path_ohm, power_W);
    if (motor_A > least_A) {
      motor_A = least_A;
      now.limitedBy = "battery_current";
    }
    const volts_V = made_V - path_ohm * motor_A - interpolate(motor.current_A, motor.brush_V, motor_A);
    now.duty = motor_A > 0 ? dutyFor(Math.max(0, volts_V), -motor_A, open_V, source_ohm) : 0;
  }
  now.motor_A = -motor_A;
}

/** The smaller current at which a source of `made_V` behind `path_ohm` gives a power; Infinity where it cannot. */
function currentForPower(made_V: number, path_ohm: number, power_W: number): number {
  const root = made_V * made_V - 4 * path_ohm * power_W;
  return root < 0 || made_V <= 0 ? Number.POSITIVE_INFINITY : (2 * power_W) / (made_V + Math.sqrt(root));
}
