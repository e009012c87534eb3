import { MAGNETIC_ON_DC, smallestBreaker, surelyHolds_A, surelyTrips_A } from "../../parts/breaker.ratings.js";
import { carries_A, shortCircuit_A, withstand_A2s } from "../../parts/wiring.js";
import { smallestCable_mm2 } from "../../parts/wiring.sizes.js";
import type { Plan } from "../../train/plan.js";
import type { CableAnswer, ProtectionAnswer, Recommended, ShortCircuit, WorkingCurrents } from "./answer.js";
import { findingsOf } from "./findings.js";
import { guardedCable_mm2 } from "./guarded.js";
import { climbingOf, lastingCurrent_A, stallHeld } from "./loads.js";
import { switchesOf } from "./switches.js";

const RULES = [
  "rms of the battery current at most 0.8 of the rating: a fuse of 1.25 times the lasting load (storagefaults.com)",
  "steady current on the ruling gradient, on a rail that grips, at most 1.13 times the rating, which a breaker carries for an hour (IEC 60898-1)",
  "peak battery current below the curve's magnetic band: B 3, C 5, D 10 times the rating (IEC 60898-1)",
  "the battery cable carries the rating, which guards it, and stands a short circuit for 0.1 s, by which a breaker has tripped at once; the motor cable, which only the controller guards, carries the current of a stall (IEC 60364-5-52 table B.52, method B2, PVC at 30 °C)",
];

/**
 * Breaker or fuse and both cables against what this loco can ask of them, and, where `working` is given, against what a
 * working did ask.
 */
export function protectionOf(plan: Plan, working: WorkingCurrents | null = null): ProtectionAnswer {
  const { train } = plan;
  const { breaker, wiring } = train;
  const [from_A, to_A] = breaker.magneticBand_A;
  const ruling = climbingOf(plan);
  const stall = stallHeld(plan);
  const answer: Omit<ProtectionAnswer, "findings"> = {
    device: breaker.kind,
    rating_A: finite(breaker.rating_A),
    surely_holds_A: finite(surelyHolds_A(breaker)),
    surely_trips_A: finite(surelyTrips_A(breaker)),
    magnetic_from_A: finite(from_A),
    magnetic_to_A: finite(to_A),
    magnetic_on_dc_from_A: finite(MAGNETIC_ON_DC * from_A),
    magnetic_on_dc_to_A: finite(MAGNETIC_ON_DC * to_A),
    short_circuit: shortCircuitOf(plan),
    battery_cable: cable(
      plan,
      wiring.batteryCable_mm2,
      wiring.batteryCable_ohm,
      working && [working.rms_battery_current_A, working.peak_battery_current_A],
    ),
    motor_cable: cable(
      plan,
      wiring.motorCable_mm2,
      wiring.motorCable_ohm,
      working && [working.rms_motor_current_A, working.peak_motor_current_A],
    ),
    switches: switchesOf(plan, working),
    stall,
    ruling_gradient: ruling,
    recommended: null,
  };
  if (working) answer.recommended = recommend(working, lastingCurrent_A(plan), answer);
  return { ...answer, findings: findingsOf(answer, train.controller.electricBrake === "regenerative") };
}

/** What is without end is null; what is no number is not hidden. */
const finite = (value: number): number | null => (value === Number.POSITIVE_INFINITY ? null : value);

function cable(
  { train }: Plan,
  area_mm2: number,
  resistance_ohm: number,
  currents: readonly [rms_A: number, peak_A: number] | null,
): CableAnswer {
  const percent = 100 / train.battery.nominal_V;
  const [rms_A, peak_A] = currents ?? [null, null];
  const rms_V = rms_A === null ? null : rms_A * resistance_ohm;
  const peak_V = peak_A === null ? null : peak_A * resistance_ohm;
  return {
    area_mm2,
    resistance_ohm,
    carries_A: carries_A(area_mm2),
    rms_current_A: rms_A,
    peak_current_A: peak_A,
    drop_at_rms_V: rms_V,
    drop_at_rms_percent: rms_V === null ? null : rms_V * percent,
    drop_at_peak_V: peak_V,
    drop_at_peak_percent: peak_V === null ? null : peak_V * percent,
  };
}

function shortCircuitOf({ train: { battery, wiring } }: Plan): ShortCircuit {
  const emf_V = battery.rested.y[battery.rested.y.length - 1];
  const current_A = shortCircuit_A(emf_V, battery.warm_ohm + wiring.batteryCable_ohm);
  return {
    emf_V,
    battery_resistance_ohm: battery.warm_ohm,
    cable_resistance_ohm: wiring.batteryCable_ohm,
    current_A,
    in_this_air_A: shortCircuit_A(emf_V, battery.resistance_ohm + wiring.batteryCable_ohm),
    at_terminals_A: shortCircuit_A(emf_V, battery.warm_ohm),
    cable_withstands_s: withstand_A2s(wiring.batteryCable_mm2) / current_A ** 2,
  };
}

function recommend(
  working: WorkingCurrents,
  climbing_A: number,
  own: Pick<ProtectionAnswer, "battery_cable" | "short_circuit" | "stall">,
): Recommended {
  const chosen = smallestBreaker(working.rms_battery_current_A, climbing_A, working.peak_battery_current_A);
  return {
    breaker_rating_A: chosen?.rating_A ?? null,
    breaker_curve: chosen?.curve ?? null,
    battery_cable_mm2: chosen && guardedCable_mm2(smallestCable_mm2(chosen.rating_A), own),
    motor_cable_mm2: smallestCable_mm2(Math.max(working.rms_motor_current_A, own.stall.motor_current_A)),
    rules: RULES,
  };
}
