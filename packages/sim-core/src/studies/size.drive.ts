import { CHAIN_EFFICIENCY } from "../parts/gears.js";
import type { Sizing } from "./size.input.js";

export interface Gearing {
  /** Turns of the motor for one of the axle. */
  readonly ratio: number;
  readonly stages: number;
  readonly efficiency: number;
  readonly motor_rpm: number;
  /** Layshafts, seen from the axle; known only where gears are given. */
  readonly inertia_kgm2: number;
  readonly given: boolean;
}

/** One chain stage reduces at most so much: chain makers' limit. */
const MOST_IN_A_STAGE = 7;

const RPM_radps = Math.PI / 30;

/** The gears given and the motor speed they make, or the ratio that a motor speed asks for, in as few chains as carry it. */
export function gearingFor({ gears, train, speed_mps }: Sizing, motor_rpm: number): Gearing {
  const axle_radps = speed_mps / train.radius_m;
  if (gears) {
    const { ratio, efficiency, inertia_kgm2, stages } = gears;
    const made_rpm = (axle_radps * ratio) / RPM_radps;
    return { ratio, stages: stages.length, efficiency, motor_rpm: made_rpm, inertia_kgm2, given: true };
  }
  const ratio = (motor_rpm * RPM_radps) / axle_radps;
  const stages = Math.max(1, Math.ceil(Math.log(ratio) / Math.log(MOST_IN_A_STAGE) - 1e-9));
  return { ratio, stages, efficiency: CHAIN_EFFICIENCY ** stages, motor_rpm, inertia_kgm2: 0, given: false };
}

/** The motor, all motors together, and what hangs on it. */
export interface MotorFor {
  readonly continuous_W: number;
  readonly continuous_Nm: number;
  readonly peak_W: number;
  readonly peak_Nm: number;
  readonly starting_N: number;
  readonly effective_kg: number;
}

/** In hand over the rms: common practice, no source. */
export const POWER_MARGIN = 1.25;
/** A motor held at more than this many times its rated current is soon too hot: common practice, no source. */
export const MOST_TORQUES = 3;

/**
 * The continuous power covers the rms round the lap with a margin, and starting away on the ruling gradient takes at most
 * three times its torque. The rotor must be started too, and grows with the power: the two are straight lines, so the
 * least power that carries its own rotor is solved for.
 */
export function motorFor(
  sizing: Sizing,
  gearing: Gearing,
  rms_N: number,
  ruling_N: number,
  restart_N: number,
  rotor_kgm2pW: number,
): MotorFor {
  const { train, speed_mps, acceleration_mps2 } = sizing;
  const toTread = 1 / train.radius_m ** 2;
  const toShaft_Wpn = speed_mps / gearing.efficiency;
  const turning_kg = (sizing.drivenWheels_kgm2 + gearing.inertia_kgm2) * toTread;
  const withoutRotor_kg = train.translating_kg + turning_kg;
  const rotor_kgpW = rotor_kgm2pW * gearing.ratio ** 2 * toTread;

  const byRms_W = POWER_MARGIN * rms_N * toShaft_Wpn;
  const byRestart_W = (restart_N * toShaft_Wpn) / MOST_TORQUES;
  const rotorless_W = (ruling_N + withoutRotor_kg * acceleration_mps2) * toShaft_Wpn;
  const byStarting_W = rotorless_W / (MOST_TORQUES - acceleration_mps2 * rotor_kgpW * toShaft_Wpn);
  const continuous_W = Math.max(byRms_W, byRestart_W, byStarting_W);

  const effective_kg = withoutRotor_kg + rotor_kgpW * continuous_W;
  const starting_N = Math.max(restart_N, ruling_N + effective_kg * acceleration_mps2);
  const motor_radps = gearing.motor_rpm * RPM_radps;
  return {
    continuous_W,
    continuous_Nm: continuous_W / motor_radps,
    peak_W: starting_N * toShaft_Wpn,
    peak_Nm: (starting_N * train.radius_m) / (gearing.ratio * gearing.efficiency),
    starting_N,
    effective_kg,
  };
}
