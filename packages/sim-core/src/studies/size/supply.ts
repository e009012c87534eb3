import { smallestBreaker } from "../../parts/breaker.ratings.js";
import { smallestCable_mm2 } from "../../parts/wiring.sizes.js";
import type { BatteryRow } from "./batteries.js";

/** The currents at one battery voltage, and what carries them. */
export interface CurrentsRow {
  voltage_V: number;
  /** From the battery, steadily round the lap: what warms its cable; and up the ruling gradient. */
  battery_rms_current_A: number;
  battery_ruling_current_A: number;
  /** Starting away on the ruling gradient, when the plan's speed is reached. */
  battery_peak_current_A: number;
  /** What the motor's plate should say, and what starting away takes. */
  motor_continuous_current_A: number;
  motor_peak_current_A: number;
  /** Most current that the controller can give the motor. */
  controller_current_A: number;
  /** Null where no standard breaker or cable is large enough. */
  breaker_rating_A: number | null;
  breaker_curve: "B" | "C" | "D" | null;
  battery_cable_mm2: number | null;
  motor_cable_mm2: number | null;
}

/** What one battery voltage comes to. */
export type SupplyRow = CurrentsRow & BatteryRow;

/** Electrical power into the motor; what stands beside it is drawn all the time. */
export interface Loads {
  mean_W: number;
  rms_W: number;
  ruling_W: number;
  peak_W: number;
  standing_W: number;
  /** The motor's own rating, and how many times its rated torque starting away takes. */
  rated_W: number;
  peakTorques: number;
}

/** What most locos of this size run on (common practice, no source): told before the other voltages. */
export const USUAL_SUPPLY_V = 24;

/** A controller's current limit over what starting away takes: common practice, no source. */
export const CONTROLLER_MARGIN = 1.25;

/** Amperes at a voltage: those of a chopper's battery go with power, those of its motor with torque. */
export function supplyAt(voltage_V: number, loads: Loads): CurrentsRow {
  const standing_A = loads.standing_W / voltage_V;
  const mean_A = loads.mean_W / voltage_V;
  const rms_A = Math.sqrt((loads.rms_W / voltage_V) ** 2 + standing_A * (2 * mean_A + standing_A));
  const ruling_A = loads.ruling_W / voltage_V + standing_A;
  const peak_A = loads.peak_W / voltage_V + standing_A;
  const rated_A = loads.rated_W / voltage_V;
  const starting_A = rated_A * loads.peakTorques;
  const chosen = smallestBreaker(rms_A, ruling_A, peak_A);
  return {
    voltage_V,
    battery_rms_current_A: rms_A,
    battery_ruling_current_A: ruling_A,
    battery_peak_current_A: peak_A,
    motor_continuous_current_A: rated_A,
    motor_peak_current_A: starting_A,
    controller_current_A: CONTROLLER_MARGIN * starting_A,
    breaker_rating_A: chosen?.rating_A ?? null,
    breaker_curve: chosen?.curve ?? null,
    battery_cable_mm2: chosen && smallestCable_mm2(chosen.rating_A),
    motor_cable_mm2: smallestCable_mm2(CONTROLLER_MARGIN * starting_A),
  };
}
