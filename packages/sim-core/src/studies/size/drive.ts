import { type Meshes, meshesOf, shaftFor_N } from "../../drive/meshes.js";
import { MOST_RATIO } from "../../parts/chain.js";
import { gearKeys } from "../../parts/drive.keys.js";
import { assembleGears, type Stage } from "../../parts/gears.js";
import type { Sizing } from "./input.js";

export interface Gearing {
  /** Turns of the motor for one of the axle. */
  readonly ratio: number;
  readonly stages: number;
  readonly efficiency: number;
  readonly motor_rpm: number;
  /** Layshafts, known only where gears are given, and driven wheels; the rotor is sized by the motor. */
  readonly meshes: Meshes;
  readonly given: boolean;
}

const RPM_radps = Math.PI / 30;

/** The gears given and the motor speed they make, or the ratio that a motor speed asks for, in as few chains as carry it. */
export function gearingFor(sizing: Sizing, motor_rpm: number): Gearing {
  const { train, speed_mps, drivenWheels_kgm2 } = sizing;
  const axle_radps = speed_mps / train.radius_m;
  const gears = sizing.gears ?? chainsFor((motor_rpm * RPM_radps) / axle_radps);
  return {
    ratio: gears.ratio,
    stages: gears.stages.length,
    efficiency: gears.efficiency,
    motor_rpm: sizing.gears ? (axle_radps * gears.ratio) / RPM_radps : motor_rpm,
    meshes: meshesOf(gears, 0, drivenWheels_kgm2, train.radius_m),
    given: sizing.gears !== undefined,
  };
}

/** So many chains alike as a ratio takes. */
function chainsFor(ratio: number) {
  const stages = Math.max(1, Math.ceil(Math.log(ratio) / Math.log(MOST_RATIO) - 1e-9));
  const stage: Stage = {
    ...{ ratio: ratio ** (1 / stages), efficiency: gearKeys.efficiency.default.value.chain, drivenInertia_kgm2: 0 },
    ...{ teeth: undefined, chain: undefined, centres_m: undefined },
  };
  return { ...assembleGears(Array.from({ length: stages }, () => stage)), ratio };
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
  const { meshes, ratio, efficiency } = gearing;
  const turning_kg = meshes.turning_kg.reduce((sum, each_kg) => sum + each_kg, 0);
  const rotor_kgpW = rotor_kgm2pW * (ratio / train.radius_m) ** 2;

  // At the motor's shaft, as seen at the tread. The rotor is started there: what it takes passes through no gear.
  const wheels_kg = train.translating_kg + meshes.turning_kg[meshes.efficiency.length];
  const restarting_N = restart_N / efficiency;
  const rotorless_N = shaftFor_N(meshes, ruling_N + wheels_kg * acceleration_mps2, acceleration_mps2, 1);
  const byRms_W = (POWER_MARGIN * rms_N * speed_mps) / efficiency;
  const byRestart_W = (restarting_N * speed_mps) / MOST_TORQUES;
  const byStarting_W = (rotorless_N * speed_mps) / (MOST_TORQUES - acceleration_mps2 * rotor_kgpW * speed_mps);
  const continuous_W = Math.max(byRms_W, byRestart_W, byStarting_W);
  const peak_N = Math.max(restarting_N, rotorless_N + rotor_kgpW * continuous_W * acceleration_mps2);

  const effective_kg = train.translating_kg + turning_kg + rotor_kgpW * continuous_W;
  return {
    continuous_W,
    continuous_Nm: continuous_W / (gearing.motor_rpm * RPM_radps),
    peak_W: peak_N * speed_mps,
    peak_Nm: (peak_N * train.radius_m) / ratio,
    starting_N: Math.max(restart_N, ruling_N + effective_kg * acceleration_mps2),
    effective_kg,
  };
}
