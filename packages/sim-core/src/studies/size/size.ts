import { gravity_N, grip_N, resistance_N } from "../../drive/pull.js";
import { RAIL } from "../../parts/adhesion.js";
import { inTheCold } from "../../parts/battery.each.js";
import { G_mps2 } from "../../parts/constants.js";
import { controllerKeys } from "../../parts/drive.keys.js";
import { motorKeys } from "../../parts/motor.keys.js";
import { sound } from "../../record/sound.js";
import { gradientsFelt } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import { airAt_N } from "../../train/rolling.js";
import { mustBeAsked, mustBeList } from "../asked.js";
import { brakeForLine_N, stoppingOf } from "../brakes/stopping.js";
import { forStopping } from "../safe.js";
import { steepest, type Way, waysOf } from "../ways.js";
import type { SizeAnswer } from "./answer.js";
import { batteriesFor } from "./batteries.js";
import { brakeComesOn_s, stopWithin, WET_BRAKING } from "./braking.js";
import { dayDraw } from "./day.js";
import { gearingFor, type MotorFor, motorFor } from "./drive.js";
import type { Sizing } from "./input.js";
import { lapForces } from "./lap.js";
import { rulesOf } from "./rules.js";
import { supplyAt } from "./supply.js";

export interface SizeOptions {
  /** Speed of the motor at the plan's speed, where the loco file gives no gears. */
  motor_speed_rpm?: number;
  /** Share of the electrical power that reaches the motor's shaft, controller and cables included. */
  motor_efficiency?: number;
  /** Rotor's moment of inertia for each watt of continuous power, kg m²/W. */
  rotor_inertia_kgm2pW?: number;
  /** Distance within which the train must stop. */
  sight_m?: number;
  voltages_V?: readonly number[];
}

/** All common practice, no source: 24 V motors of 250 to 1000 W turn 2500 to 3000 rpm, and 0.75 to 0.80 by their plates. */
const USUAL = {
  motor_speed_rpm: 2750,
  motor_efficiency: 0.75,
  rotor_inertia_kgm2pW: motorKeys.inertia.default.value,
  sight_m: 20,
  voltages_V: [12, 24, 36, 48],
} as const satisfies SizeOptions;

const isSupply = (volts_V: unknown): boolean => typeof volts_V === "number" && volts_V >= 1 && volts_V <= 10_000;

/** What the line takes of the train, and the motor that it wants for that. */
export function motorWanted(sizing: Sizing, { motor_speed_rpm, rotor_inertia_kgm2pW } = USUAL as Chosen) {
  const { train, speed_mps } = sizing;
  const ways = waysOf(sizing);
  // Restarts are sized by the steepest that the survey leaves open, a lap by the heights as they stand.
  const rises = waysOf({ ...sizing, leaning: 1 });
  const ruling = steepest(rises, "compensated");
  const ruling_N = resistance_N(train, speed_mps, ruling.way.wind_mps) + gravity_N(train, ruling.share);
  const restart_N = restartOn_N(ruling.way, ruling.share);
  const lap = lapForces(ways, speed_mps);
  const gearing = gearingFor(sizing, motor_speed_rpm);
  const motor = motorFor(sizing, gearing, lap.rms_N, ruling_N, restart_N, rotor_inertia_kgm2pW);
  return { rises, ruling, ruling_N, restart_N, lap, gearing, motor };
}

type Chosen = Required<Pick<SizeOptions, "motor_speed_rpm" | "rotor_inertia_kgm2pW">>;

/** Sizes motor, gears, battery, controller, breaker, cables, brake and ballast for a train that has no drive yet. */
export function size(sizing: Sizing, options: SizeOptions = {}): SizeAnswer {
  mustBeAsked(options);
  mustBeList("voltages_V", options.voltages_V, isSupply, "volts from 1 to 10000");
  const chosen = { ...USUAL, ...options };
  const { train, speed_mps, air_degC, duration_s, notes } = sizing;
  const { rises, ruling, ruling_N, restart_N, lap, gearing, motor } = motorWanted(sizing, chosen);
  const up = steepest(rises, "up").share;
  const down = steepest(waysOf({ ...sizing, leaning: -1 }), "down").share;
  const toMotor = 1 / (gearing.efficiency * chosen.motor_efficiency);
  const loads = {
    mean_W: lap.mean_N * speed_mps * toMotor,
    rms_W: lap.rms_N * speed_mps * toMotor,
    ruling_W: Math.max(0, ruling_N) * speed_mps * toMotor,
    peak_W: motor.peak_W / chosen.motor_efficiency,
    standing_W: sizing.accessories_W + controllerKeys.standing_power.default.value,
    rated_W: motor.continuous_W / chosen.motor_efficiency,
    peakTorques: motor.peak_Nm / motor.continuous_Nm,
  };
  const day = dayDraw(sizing, gearing, motor, loads);
  for (const chemistry of ["lead-acid", "lifepo4"] as const) inTheCold(chemistry, air_degC, notes);
  return sound({
    speed_mps,
    duration_h: duration_s / 3600,
    train_mass_kg: train.mass_kg,
    effective_mass_kg: motor.effective_kg,
    ruling_gradient_percent: 100 * up,
    ruling_gradient_compensated_percent: 100 * ruling.share,
    ruling_gradient_at_m: ruling.chainage_m,
    steepest_descent_percent: 100 * down,
    rail_force_level_N: resistance_N(train, speed_mps, sizing.wind_mps),
    rail_force_ruling_N: ruling_N,
    rail_power_ruling_W: ruling_N * speed_mps,
    rail_force_mean_N: lap.mean_N,
    rail_force_rms_N: lap.rms_N,
    rail_power_rms_W: lap.rms_N * speed_mps,
    rail_energy_per_lap_Wh: (lap.mean_N * lap.distance_m) / 3600,
    restart_force_N: restart_N,
    starting_force_N: motor.starting_N,
    ratio: gearing.ratio,
    gear_stages: gearing.stages,
    gear_efficiency: gearing.efficiency,
    motor_speed_rpm: gearing.motor_rpm,
    motor_efficiency: chosen.motor_efficiency,
    motor_continuous_power_W: motor.continuous_W,
    motor_continuous_torque_Nm: motor.continuous_Nm,
    motor_peak_power_W: motor.peak_W,
    motor_peak_torque_Nm: motor.peak_Nm,
    rule_of_thumb_power_W: THUMB_WpKg * sizing.loco_kg,
    day_not_run: day.notRun,
    supplies: chosen.voltages_V.map((voltage_V) => {
      const row = supplyAt(voltage_V, loads);
      return { ...row, ...batteriesFor(voltage_V, day.at(voltage_V), row.battery_cable_mm2, air_degC) };
    }),
    ...brakes(sizing, motor, day.built, chosen.sight_m, down),
    ...adhesion(rises, restart_N, motor.starting_N, up),
    rules: rulesOf(sizing, gearing, day),
  });
}

/** A quarter horsepower to 100 lb of loco. */
const THUMB_WpKg = (0.25 * 745.7) / (100 * 0.45359237);

function brakes(
  { train, speed_mps, reaction_s }: Sizing,
  { effective_kg }: MotorFor,
  built: Plan | undefined,
  sight_m: number,
  down: number,
) {
  const before_s = reaction_s + brakeComesOn_s();
  const stop = (down_N: number) => stopWithin(sight_m, speed_mps, before_s, effective_kg, down_N);
  const level = stop(0);
  const descent = stop(Math.max(0, -gravity_N(train, down)));
  const line_N = built ? brakeForLine_N(stoppingOf(forStopping(built), sight_m)) : (descent?.force_N ?? null);
  return {
    sight_m,
    brake_force_level_N: level?.force_N ?? null,
    brake_retardation_level_mps2: level?.retardation_mps2 ?? null,
    brake_force_descent_N: descent?.force_N ?? null,
    brake_retardation_descent_mps2: descent?.retardation_mps2 ?? null,
    brake_force_line_N: line_N,
    braked_weight_wet_N: line_N === null ? null : line_N / WET_BRAKING,
    train_weight_N: train.mass_kg * G_mps2,
  };
}

function adhesion(ways: readonly Way[], restart_N: number, starting_N: number, sine: number) {
  const level = Math.sqrt(1 - sine * sine);
  const weight_N = (force_N: number, grip: number) => force_N / (grip * level);
  const restarts = (grip: number) =>
    ways.every((way) => {
      const felt = gradientsFelt(way.train, way.track);
      const gripping = { ...way.train, adhesion: { static: grip, sliding: grip } };
      return grip_N(gripping, felt.up.share) >= restartOn_N(way, felt.compensated.share);
    });
  return {
    adhesive_weight_N: ways[0].train.driven_N,
    adhesive_weight_restart_dry_N: weight_N(restart_N, RAIL.dry),
    adhesive_weight_restart_wet_N: weight_N(restart_N, RAIL.wet),
    adhesive_weight_starting_dry_N: weight_N(starting_N, RAIL.dry),
    adhesive_weight_starting_wet_N: weight_N(starting_N, RAIL.wet),
    restarts_dry: restarts(RAIL.dry),
    restarts_wet: restarts(RAIL.wet),
  };
}

/** What it takes to get moving on a gradient, curves counted in, N. */
const restartOn_N = ({ train, wind_mps }: Way, sine: number): number =>
  gravity_N(train, sine) + train.breakaway_N + airAt_N(train, wind_mps);
