import type { Climbing, HeldStall } from "./loads.js";
import type { SwitchesAnswer } from "./switches.answer.js";

export type FindingCode =
  | "device_fitted"
  | "device_carries_working"
  | "device_holds_on_gradient"
  | "device_below_magnetic_trip"
  | "device_guards_battery_cable"
  | "device_protects_stalled_motor"
  | "device_breaking_capacity"
  | "short_circuit_trips_at_once"
  | "short_circuit_spares_cable"
  | "battery_cable_carries_working"
  | "motor_cable_carries_working"
  | "motor_cable_carries_stall"
  | "battery_cable_volt_drop"
  | "motor_cable_volt_drop"
  | "regeneration_through_breaker";

/** One thing looked at: is `value` on the right side of `limit`? Null stands for never, or for what has no number. */
export interface Finding {
  code: FindingCode;
  ok: boolean;
  value: number | null;
  limit: number | null;
  unit: "A" | "s" | "percent" | null;
}

/** Currents of one working, from its first second to its last. */
export interface WorkingCurrents {
  rms_battery_current_A: number;
  peak_battery_current_A: number;
  rms_motor_current_A: number;
  peak_motor_current_A: number;
  /** Root mean square over its worst minute; not known where they are left out. */
  minute_battery_current_A?: number;
  minute_motor_current_A?: number;
}

/** A cable and what the working asks of it; the last six are null where nothing was run. */
export interface CableAnswer {
  area_mm2: number;
  /** There and back, at the temperature of the air. At 70 °C copper has a fifth more. */
  resistance_ohm: number;
  /** Steadily, IEC 60364-5-52 table B.52, method B2, at 30 °C. */
  carries_A: number;
  rms_current_A: number | null;
  peak_current_A: number | null;
  drop_at_rms_V: number | null;
  /** Of the battery's nominal volts. */
  drop_at_rms_percent: number | null;
  drop_at_peak_V: number | null;
  drop_at_peak_percent: number | null;
}

/** A dead short, full battery, as warm as labels are given, no joints: the most it can be behind the battery cable. */
export interface ShortCircuit {
  emf_V: number;
  battery_resistance_ohm: number;
  cable_resistance_ohm: number;
  current_A: number;
  /** In the plan's air, where a cold battery gives less: what a breaker must trip at. */
  in_this_air_A: number;
  /**
   * Across the battery's own terminals, which nothing in the cable protects; and what breaker or fuse must be able to break,
   * since it stands close to the battery and a short circuit close behind it is of the same size. It prints what it can, on
   * direct current, as its breaking capacity (IEC 60364-4-43: no less than the short circuit where it stands; from memory).
   */
  at_terminals_A: number;
  /** How long the battery cable stands it: (k S / I)², k 115 for PVC (from memory, IEC 60364-4-43). */
  cable_withstands_s: number;
}

/** The least standard breaker and cables that this working may lie on; null where none here is large enough. */
export interface Recommended {
  breaker_rating_A: number | null;
  breaker_curve: "B" | "C" | "D" | null;
  battery_cable_mm2: number | null;
  motor_cable_mm2: number | null;
  /** The rules, with their sources. */
  rules: string[];
}

/** What guards battery, cables and motor, and whether it does. */
export interface ProtectionAnswer {
  device: "none" | "breaker" | "fuse";
  rating_A: number | null;
  /** Sure not to trip it (1.13 times a breaker's rating, a fuse's own), and sure to within an hour or two (1.45; 1.35). */
  surely_holds_A: number | null;
  surely_trips_A: number | null;
  /** Trips at once somewhere between these: as printed, for alternating current, and about so on direct current. */
  magnetic_from_A: number | null;
  magnetic_to_A: number | null;
  magnetic_on_dc_from_A: number | null;
  magnetic_on_dc_to_A: number | null;
  short_circuit: ShortCircuit;
  battery_cable: CableAnswer;
  motor_cable: CableAnswer;
  switches: SwitchesAnswer;
  stall: HeldStall;
  /** Running steadily up the ruling gradient; null where it does not get up. */
  ruling_gradient: Climbing | null;
  /** Null where nothing was run. */
  recommended: Recommended | null;
  findings: Finding[];
}
