import { LASTING_SHARE, MAGNETIC_s, MOST_BREAKING_A } from "../../parts/breaker.ratings.js";
import { MOST_DROP } from "../../parts/wiring.sizes.js";
import type { Finding, FindingCode, ProtectionAnswer } from "./answer.js";

/**
 * Everything that can be looked at with what is known. A magnetic band is taken at whichever end is worse: below it as on
 * alternating current, past it as on direct current, where the band lies higher. On a breaker for direct current that is
 * marked with poles, current fed back to the battery runs the wrong way, and it may not break it (common practice).
 */
export function findingsOf(p: Omit<ProtectionAnswer, "findings">, regenerates: boolean): Finding[] {
  const found: Finding[] = [];
  const atMost = (
    code: FindingCode,
    value: number | null | undefined,
    limit: number | null | undefined,
    unit: Finding["unit"],
  ) => {
    if (value != null && limit != null) found.push({ code, ok: value <= limit, value, limit, unit });
  };
  const atLeast = (code: FindingCode, value: number, limit: number, unit: Finding["unit"]) =>
    found.push({ code, ok: value >= limit, value, limit, unit });
  const { short_circuit, battery_cable, motor_cable, stall, rating_A } = p;

  found.push({ code: "device_fitted", ok: p.device !== "none", value: rating_A, limit: null, unit: "A" });
  atMost("device_carries_working", battery_cable.rms_current_A, rating_A && LASTING_SHARE * rating_A, "A");
  atMost("device_holds_on_gradient", p.ruling_gradient?.battery_current_A, p.surely_holds_A, "A");
  atMost("device_below_magnetic_trip", battery_cable.peak_current_A, p.magnetic_from_A, "A");
  atMost("device_guards_battery_cable", rating_A, battery_cable.carries_A, "A");
  found.push({
    code: "device_protects_stalled_motor",
    ok: stall.too_hot_s === null || (stall.trip_s !== null && stall.trip_s <= stall.too_hot_s),
    value: stall.trip_s,
    limit: stall.too_hot_s,
    unit: "s",
  });
  if (p.device === "breaker") {
    atMost("device_breaking_capacity", short_circuit.at_terminals_A, MOST_BREAKING_A, "A");
    atLeast("short_circuit_trips_at_once", short_circuit.in_this_air_A, p.magnetic_on_dc_to_A ?? 0, "A");
    atLeast("short_circuit_spares_cable", short_circuit.cable_withstands_s, MAGNETIC_s, "s");
    found.push({ code: "regeneration_through_breaker", ok: !regenerates, value: null, limit: null, unit: null });
  }
  atMost("battery_cable_carries_working", battery_cable.rms_current_A, battery_cable.carries_A, "A");
  atMost("motor_cable_carries_working", motor_cable.rms_current_A, motor_cable.carries_A, "A");
  atMost("motor_cable_carries_stall", stall.motor_current_A, motor_cable.carries_A, "A");
  atMost("battery_cable_volt_drop", battery_cable.drop_at_peak_percent, 100 * MOST_DROP, "percent");
  atMost("motor_cable_volt_drop", motor_cable.drop_at_peak_percent, 100 * MOST_DROP, "percent");
  return found;
}
