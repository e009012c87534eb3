import { MAGNETIC_ON_DC, smallestBreaker, surelyHolds_A, surelyTrips_A } from "../../parts/breaker.ratings.js";
import { carries_A, shortCircuit_A, withstand_A2s } from "../../parts/wiring.js";
import { smallestCable_mm2 } from "../../parts/wiring.sizes.js";
import type { Plan } from "../../train/plan.js";
import { type Finding, findingsOf } from "./findings.js";
import { type Climbing, climbingOf, type HeldStall, lastingCurrent_A, stallHeld } from "./loads.js";

/** Currents of one working, from its first second to its last. */
export interface WorkingCurrents {
  rms_battery_current_A: number;
  peak_battery_current_A: number;
  rms_motor_current_A: number;
  peak_motor_current_A: number;
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

/** A dead short behind the battery cable: full battery, as warm as labels are given, no joints: the most it can be. */
export interface ShortCircuit {
  emf_V: number;
  battery_resistance_ohm: number;
  cable_resistance_ohm: number;
  /** What breaker or fuse must be able to break; it prints what it can, on direct current, as its breaking capacity. */
  current_A: number;
  /** In the plan's air, where a cold battery gives less: what a breaker must trip at. */
  in_this_air_A: number;
  /** Across the battery's own terminals, which nothing in the cable protects. */
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
  stall: HeldStall;
  /** Running steadily up the ruling gradient; null where it does not get up. */
  ruling_gradient: Climbing | null;
  /** Null where nothing was run. */
  recommended: Recommended | null;
  findings: Finding[];
}

const RULES = [
  "rms of the battery current at most 0.8 of the rating: a fuse of 1.25 times the lasting load (storagefaults.com)",
  "steady current on the ruling gradient, on a rail that grips, at most 1.13 times the rating, which a breaker carries for an hour (IEC 60898-1)",
  "peak battery current below the curve's magnetic band: B 3, C 5, D 10 times the rating (IEC 60898-1)",
  "the battery cable carries the rating, which guards it; the motor cable, which only the controller guards, carries the current of a stall (IEC 60364-5-52 table B.52, method B2, PVC at 30 °C)",
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
    stall,
    ruling_gradient: ruling,
    recommended: working && recommend(working, lastingCurrent_A(plan), stall.motor_current_A),
  };
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

function recommend(working: WorkingCurrents, climbing_A: number, stalled_A: number): Recommended {
  const chosen = smallestBreaker(working.rms_battery_current_A, climbing_A, working.peak_battery_current_A);
  return {
    breaker_rating_A: chosen?.rating_A ?? null,
    breaker_curve: chosen?.curve ?? null,
    battery_cable_mm2: chosen && smallestCable_mm2(chosen.rating_A),
    motor_cable_mm2: smallestCable_mm2(Math.max(working.rms_motor_current_A, stalled_A)),
    rules: RULES,
  };
}
