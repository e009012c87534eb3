import { coolingShare } from "../../parts/heat.nodes.js";
import {
  hasDrag,
  noLoadSpeed_radps,
  peakEfficiency,
  peakPower,
  stallCurrent_A,
  stallTorque_Nm,
} from "../../parts/motor.points.js";
import type { Unfit } from "../../parts/track.columns.js";
import { sound } from "../../record/sound.js";
import { climb_m } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import { isFit, surveyedFor } from "../../train/surveyed.js";
import type { Train } from "../../train/train.js";
import { pullAtLimit_N } from "../../train/warnings.js";
import type { ProtectionAnswer } from "../protection/answer.js";
import { protectionOf } from "../protection/protection.js";
import { type Met, steepest, waysOf } from "../ways.js";
import { type BrakeAnswer, brakesFitted } from "./braked.js";
import { type ElectricBrakeAnswer, electricBrake } from "./electric-brake.js";
import { measureFirst, type ToMeasure } from "./measure.js";

/** What the files come to, before anything runs. */
export interface CheckAnswer {
  ratio: number;
  gear_efficiency: number;
  /** On the level at the battery's nominal volts. */
  speed_at_rated_motor_speed_mps: number | null;
  /** Null for a series motor: it runs away unloaded. */
  speed_at_no_load_mps: number | null;
  train_mass_kg: number;
  train_length_m: number;
  /** With rotating parts, as the train accelerates. */
  effective_mass_kg: number;
  adhesive_weight_N: number;
  grip_N: number;
  pull_at_current_limit_N: number;
  rolling_resistance_N: number;
  starting_resistance_N: number;
  track_length_m: number;
  misclosure_m: number;
  /** Out and back on an end-to-end line. */
  climb_per_lap_m: number;
  /** As this train feels them over its own length, whichever way it runs. */
  ruling_gradient: GradientAnswer;
  ruling_gradient_compensated: GradientAnswer;
  steepest_descent: GradientAnswer;
  /** How far the profile's own doubt leaves its gradients open, and how it was surveyed; null where it tells neither. */
  survey: SurveyAnswer | null;
  motor: MotorAnswer;
  battery: BatteryAnswer;
  /** Braking with the motor, where the controller can. */
  electric_brake: ElectricBrakeAnswer | null;
  brakes: BrakeAnswer[];
  /** As far as it is known before anything runs. */
  protection: ProtectionAnswer;
  /** Of what is assumed, what to measure before anything else. */
  measure_first: ToMeasure[];
}

/** As the whole train feels it; nineteen in twenty. */
export interface SurveyAnswer {
  /** Steeper or flatter by so much. */
  doubt_percent: number;
  /** Steepest uphill, whichever way it runs, with that doubt counted: what restarts are judged by. */
  steepest_counted_percent: number;
  /** Is the steepest bit more than the doubt? If not, it may not be there. */
  steepest_is_told: boolean;
  /** Why nobody may ride by it whatever its doubt is; null where nothing says so. */
  levelling: Unfit | null;
  /** Can stops, restarts and parking be judged by it? */
  good_enough: boolean;
}

export interface GradientAnswer {
  gradient_percent: number;
  /** Of the head, from the first post either way. */
  chainage_m: number;
  /** Where on an end-to-end line it is met; always out on a circuit. */
  direction: "out" | "back";
}

/** All motors on the shaft together, cold, at the battery's nominal volts. */
export interface MotorAnswer {
  kind: "permanent-magnet" | "series";
  count: number;
  resistance_ohm: number;
  /** Of a series motor, at its highest known current. */
  torque_constant_NmpA: number;
  drag_Nm: number;
  drag_per_speed_Nms: number;
  /** Null for a series motor: it runs away unloaded. */
  no_load_speed_rpm: number | null;
  stall_current_A: number;
  stall_torque_Nm: number;
  /** Of a rating that is known or guessed: shaft power over volts times amps. */
  rated_efficiency: number;
  /** Both null for a motor without drag of its own: its efficiency only rises as the load falls. */
  peak_efficiency: number | null;
  peak_efficiency_current_A: number | null;
  peak_power_W: number;
  winding_time_constant_s: number;
  case_time_constant_s: number;
  temperature_limit_C: number;
  /** Share of the cooling that is left standing: less than 1 with a fan on the shaft. */
  cooling_standing: number;
}

export interface BatteryAnswer {
  nominal_voltage_V: number;
  rested_voltage_full_V: number;
  /** By the label, in this air and at this age. */
  capacity_Ah: number;
  /** Both wells together, what ever so slow a discharge would give. */
  wells_Ah: number;
  available_share: number;
  exponent_rate_ph: number;
  resistance_ohm: number;
  reserve: number;
  cutout_voltage_V: number | null;
}

const rpm = (radps: number): number => (radps * 30) / Math.PI;
/** What is without end is null; what is no number is not hidden. */
const finite = (value: number): number | null => (value === Number.POSITIVE_INFINITY ? null : value);

/** Works out what a builder would by hand: ratio, speeds, masses, gradients, motor and battery constants. */
export function check(plan: Plan): CheckAnswer {
  const { train, track } = plan;
  const { gears, motor, battery, radius_m } = train;
  const volts_V = battery.nominal_V;
  const atRim_mps = (motor_radps: number) => (motor_radps * radius_m) / gears.ratio;
  const ways = waysOf(plan);
  const rated = motor.rated.speed_radps;
  const free = finite(noLoadSpeed_radps(motor, volts_V));
  return sound({
    ratio: gears.ratio,
    gear_efficiency: gears.efficiency,
    speed_at_rated_motor_speed_mps: Number.isFinite(rated) ? atRim_mps(rated) : null,
    speed_at_no_load_mps: free === null ? null : atRim_mps(free),
    train_mass_kg: train.mass_kg,
    train_length_m: train.length_m,
    effective_mass_kg: train.effective_kg,
    adhesive_weight_N: train.driven_N,
    grip_N: train.adhesion.static * train.driven_N,
    pull_at_current_limit_N: pullAtLimit_N(train),
    rolling_resistance_N: train.rolling_N,
    starting_resistance_N: train.breakaway_N,
    track_length_m: track.length_m,
    misclosure_m: track.misclosure_m,
    climb_per_lap_m: ways.reduce((sum, way) => sum + climb_m(way.track), 0),
    ruling_gradient: asGradient(steepest(ways, "up")),
    ruling_gradient_compensated: asGradient(steepest(ways, "compensated")),
    steepest_descent: asGradient(steepest(ways, "down")),
    survey: surveyAnswer(plan),
    motor: motorAnswer(plan, volts_V),
    battery: {
      nominal_voltage_V: volts_V,
      rested_voltage_full_V: battery.rested.y[battery.rested.y.length - 1],
      capacity_Ah: battery.label_C / 3600,
      wells_Ah: battery.wells_C / 3600,
      available_share: battery.availableShare,
      exponent_rate_ph: battery.exponentRate_ps * 3600,
      resistance_ohm: battery.resistance_ohm,
      reserve: battery.reserve,
      cutout_voltage_V: train.controller.cutout_V > 0 ? train.controller.cutout_V : null,
    },
    brakes: brakesFitted(plan),
    electric_brake: electricBrake(plan),
    protection: protectionOf(plan),
    measure_first: measureFirst(plan),
  });
}

function surveyAnswer({ train, track }: Plan): SurveyAnswer | null {
  const surveyed = surveyedFor(train, track);
  return (
    surveyed && {
      doubt_percent: 100 * surveyed.doubt,
      steepest_counted_percent: 100 * surveyed.steepest_counted,
      steepest_is_told: surveyed.steepest > surveyed.doubt,
      levelling: surveyed.levelling,
      good_enough: isFit(surveyed),
    }
  );
}

const asGradient = ({ share, chainage_m, way }: Met<Train>): GradientAnswer => ({
  gradient_percent: 100 * share,
  chainage_m,
  direction: way.back ? "back" : "out",
});

function motorAnswer({ train: { motor, heat } }: Plan, volts_V: number): MotorAnswer {
  const free = finite(noLoadSpeed_radps(motor, volts_V));
  const efficient = hasDrag(motor) ? peakEfficiency(motor, volts_V) : null;
  const { rated } = motor;
  const { windingToCase_KpW: inner, caseToAir_KpW: outer } = heat;
  return {
    kind: motor.kind,
    count: motor.count,
    resistance_ohm: motor.resistance20_ohm,
    torque_constant_NmpA: motor.flux_NmpA[motor.flux_NmpA.length - 1],
    drag_Nm: motor.drag_Nm,
    drag_per_speed_Nms: motor.dragPerSpeed_Nms,
    no_load_speed_rpm: free === null ? null : rpm(free),
    stall_current_A: stallCurrent_A(motor, volts_V),
    stall_torque_Nm: stallTorque_Nm(motor, volts_V),
    rated_efficiency: rated.power_W / (rated.voltage_V * rated.current_A),
    peak_efficiency: efficient?.efficiency ?? null,
    peak_efficiency_current_A: efficient?.current_A ?? null,
    peak_power_W: peakPower(motor, volts_V).power_W,
    winding_time_constant_s: heat.winding_JpK * inner,
    case_time_constant_s: heat.case_JpK * outer,
    temperature_limit_C: heat.limit_degC,
    cooling_standing: coolingShare(heat, 0),
  };
}
