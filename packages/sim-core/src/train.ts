import { assume, type Notes, newNotes } from "./errors.js";
import { type Adhesion, createAdhesion, createTransfer, type Transfer } from "./parts/adhesion.js";
import { type Battery, createBattery } from "./parts/battery.js";
import { type Brake, createBrakes } from "./parts/brakes.js";
import { type Breaker, createBreaker } from "./parts/breaker.js";
import { G_mps2 } from "./parts/constants.js";
import { type Controller, createController } from "./parts/controller.js";
import type { LocoDefinition, PlanDefinition, RollingLoco } from "./parts/files.keys.js";
import { createGears, type Gears } from "./parts/gears.js";
import { createHeat, type MotorHeat } from "./parts/heat.js";
import { createMotor, type Motor } from "./parts/motor.js";
import { ratedLosses } from "./parts/motor.points.js";
import type { MotorTables } from "./parts/motor.tables.js";
import { createProtection, type Protection } from "./parts/protection.js";
import { createVehicles, type Vehicle, wheelset_kgm2 } from "./parts/vehicles.js";
import { airFactor } from "./parts/vehicles.resistance.js";
import { createWiring, type Wiring } from "./parts/wiring.js";

/** A train as it rolls and grips, whatever drives it. */
export interface Rolling {
  readonly vehicles: readonly Vehicle[];
  /** Which vehicle is the loco: 0 when it leads. */
  readonly loco: number;
  readonly adhesion: Adhesion;
  readonly transfer: Transfer;
  /** Radius of the driven wheels, m. */
  readonly radius_m: number;
  /** How far each coupling lies behind the head, from 0 to the train's length, m. */
  readonly ends_m: Float64Array;
  /** Weight per metre of each vehicle, N/m: times the rise of its length, the pull of gravity. */
  readonly gravity_Npm: Float64Array;
  /** Curve resistance of each vehicle per radian turned under its length, N/rad. */
  readonly curving_Nprad: Float64Array;
  readonly length_m: number;
  readonly mass_kg: number;
  /** Mass that moves with the train, wheels that are not driven included as rolling. */
  readonly translating_kg: number;
  readonly rolling_N: number;
  readonly rolling_Nspm: number;
  readonly breakaway_N: number;
  readonly airFactor: number;
  /** Weight on the driven axles on level track, N. */
  readonly driven_N: number;
  /** Of the loco alone: rolling resistance, mass, and mass with its undriven wheels as rolling. */
  readonly locoRolling_N: number;
  readonly locoBody_kg: number;
  readonly locoTranslating_kg: number;
}

/** The whole train: its parts, and the numbers the motion needs, worked out once. */
export interface Train extends Rolling {
  readonly motor: Motor;
  readonly heat: MotorHeat;
  readonly gears: Gears;
  readonly controller: Controller;
  readonly battery: Battery;
  readonly breaker: Breaker;
  readonly protection: Protection;
  /** Brakes of loco and cars, in the order of the files. */
  readonly brakes: readonly Brake[];
  /** Weight on the braked axles that are not driven, of each vehicle in the order it was made up, N. */
  readonly brakedAxles_N: Float64Array;
  /** Driven wheelsets, layshafts and rotor as mass at the tread. */
  readonly rim_kg: number;
  /** All that must be accelerated while the wheels grip. */
  readonly effective_kg: number;
  /** In the motor's circuit beyond its own winding: controller and motor cable. */
  readonly motorPath_ohm: number;
  readonly motorCable_ohm: number;
  /** In the battery's circuit: the battery, its cable and joints. */
  readonly source_ohm: number;
  readonly batteryCable_ohm: number;
  readonly wiring: Wiring;
  /** Accessories and the controller's own standing load, A. */
  readonly standing_A: number;
  /** Charge that each well holds when full; the bound one at least 1 C, so that shares stay numbers. */
  readonly availableFull_C: number;
  readonly boundFull_C: number;
}

/**
 * Makes the train from its definitions; every default is listed and every contradiction noted.
 * @param tables what the files that the motor names hold
 */
export function createTrain(
  loco: LocoDefinition,
  plan: PlanDefinition,
  air_degC: number,
  notes: Notes,
  tables: MotorTables = {},
): Train {
  const rolling = createRolling(loco, plan, notes);
  const motor = createMotor(loco.motor, loco.battery.each.voltage_V * (loco.battery.in_series ?? 1), notes, tables);
  const heat = createHeat(loco.motor.heat, ratedLosses(motor), notes);
  const gears = createGears(loco.gears, notes);
  const battery = createBattery(loco.battery, air_degC, notes);
  const controller = createController(
    loco.controller,
    battery.cells,
    loco.battery.in_series ?? 1,
    loco.battery.chemistry,
    notes,
  );
  if (motor.kind === "series" && controller.electricBrake !== "none") {
    const message =
      "braking with a series motor is not modelled; only a permanent magnet motor brakes electrically here";
    notes.problems.push({ path: "loco.controller.electric_brake", message });
  }
  const wiring = createWiring(loco.wiring, air_degC, notes);
  const brakes = trainBrakes(loco, plan, rolling, gears, notes);
  const standing_W = wiring.accessories_W + controller.standing_W;
  return {
    ...rolling,
    motor,
    heat,
    gears,
    controller,
    battery,
    breaker: createBreaker(loco.wiring, notes),
    protection: createProtection(loco.battery.protection, notes),
    brakes,
    brakedAxles_N: Float64Array.from(rolling.vehicles, (_, i) =>
      Math.max(0, ...brakes.filter((b) => b.vehicle === i).map((b) => b.axleWeight_N)),
    ),
    ...rotating(loco, rolling, motor, gears),
    motorPath_ohm: controller.on_ohm + wiring.motorCable_ohm,
    motorCable_ohm: wiring.motorCable_ohm,
    source_ohm: battery.resistance_ohm + wiring.batteryCable_ohm,
    batteryCable_ohm: wiring.batteryCable_ohm,
    wiring,
    standing_A: standing_W / battery.nominal_V,
    availableFull_C: battery.availableShare * battery.wells_C,
    boundFull_C: Math.max(1, (1 - battery.availableShare) * battery.wells_C),
  };
}

/** Every brake of the train; cars of one row carry the same ones. */
function trainBrakes(
  loco: LocoDefinition,
  plan: PlanDefinition,
  rolling: Rolling,
  gears: Gears,
  notes: Notes,
): Brake[] {
  const weight_N = (i: number) => rolling.vehicles[i].mass_kg * G_mps2;
  const own = {
    vehicle: 0,
    path: "loco.brakes",
    weight_N: weight_N(0),
    radius_m: rolling.radius_m,
    drivenShare: rolling.driven_N / weight_N(0),
    motorToAxle: gears.ratio / gears.efficiency,
  };
  const brakes = createBrakes(loco.brakes, own, notes);
  let vehicle = 1;
  for (const [i, car] of (plan.cars ?? []).entries()) {
    for (let j = 0; j < (car.count ?? 1); j++, vehicle++) {
      const radius_m = (car.wheel_diameter_m ?? 0.6 * loco.gauge_m) / 2;
      const on = {
        vehicle,
        path: `plan.cars.${i + 1}.brakes`,
        weight_N: weight_N(vehicle),
        radius_m,
        drivenShare: 0,
        motorToAxle: Number.NaN,
      };
      brakes.push(...createBrakes(car.brakes, on, j === 0 ? notes : newNotes()));
    }
  }
  return brakes;
}

/** The train without its drive, loco first. */
export function createRolling(loco: RollingLoco, plan: PlanDefinition, notes: Notes): Rolling {
  const vehicles = createVehicles(loco, plan, notes);
  const [own] = vehicles;
  return {
    ...assemble(vehicles, 0),
    adhesion: createAdhesion(plan, notes),
    transfer: createTransfer(loco, notes),
    radius_m: loco.wheels.diameter_m / 2,
    translating_kg: vehicles.reduce((sum, v) => sum + v.mass_kg + v.wheels_kg, 0),
    airFactor: airFactor(assume(notes, "plan.drag_area", plan.drag_area_m2, 0.7, "m²")),
    locoRolling_N: own.resistance.rolling * own.mass_kg * G_mps2,
    locoBody_kg: own.mass_kg,
    locoTranslating_kg: own.mass_kg + own.wheels_kg,
    driven_N: drivenShare(loco, notes) * own.mass_kg * G_mps2,
  };
}

/** What follows from the vehicles and their order. */
function assemble(vehicles: readonly Vehicle[], loco: number) {
  const ends_m = new Float64Array(vehicles.length + 1);
  for (const [i, v] of vehicles.entries()) ends_m[i + 1] = ends_m[i] + v.length_m;
  const weight_N = (of: (v: Vehicle) => number) => vehicles.reduce((sum, v) => sum + v.mass_kg * G_mps2 * of(v), 0);
  return {
    vehicles,
    loco,
    ends_m,
    gravity_Npm: Float64Array.from(vehicles, (v) => (v.mass_kg * G_mps2) / v.length_m),
    curving_Nprad: Float64Array.from(vehicles, (v) => (v.mass_kg * G_mps2 * v.resistance.slidingLength_m) / v.length_m),
    length_m: ends_m[vehicles.length],
    mass_kg: vehicles.reduce((sum, v) => sum + v.mass_kg, 0),
    rolling_N: weight_N((v) => v.resistance.rolling),
    rolling_Nspm: weight_N((v) => v.resistance.rolling_spm),
    breakaway_N: weight_N((v) => v.resistance.breakaway),
  };
}

/** Rotating masses as mass at the tread: the sum of J/r², never a percentage. */
function rotating(loco: RollingLoco, rolling: Rolling, motor: Motor, gears: Gears) {
  const atAxle_kgm2 = drivenWheels_kgm2(loco) + gears.inertia_kgm2 + motor.inertia_kgm2 * gears.ratio ** 2;
  const rim_kg = atAxle_kgm2 / rolling.radius_m ** 2;
  return { rim_kg, effective_kg: rolling.translating_kg + rim_kg };
}

/** Inertia of all driven wheelsets about their axles. */
export const drivenWheels_kgm2 = ({ wheels }: RollingLoco): number =>
  wheels.driven_axles * (wheels.wheelset_inertia_kgm2 ?? wheelset_kgm2(wheels.diameter_m));

function drivenShare(loco: RollingLoco, notes: Notes): number {
  const { driven_axles, axles, driven_share } = loco.wheels;
  return assume(notes, "loco.wheels.driven_share", driven_share, Math.min(1, driven_axles / (axles ?? 2)));
}

/** The same train with its vehicles in the opposite order, as it runs when it propels back or has been run round. */
export const reordered = <T extends Rolling>(train: T, order: readonly number[], turned: boolean): T => ({
  ...train,
  ...assemble(
    order.map((i) => train.vehicles[i]),
    order.indexOf(train.loco),
  ),
  // Not turned about, the loco's front end trails on the way back.
  transfer: turned ? train.transfer : { ...train.transfer, end: (0 - train.transfer.end) as Transfer["end"] },
});

/** The train as it comes back along an end-to-end line. */
export function turnedBack<T extends Rolling>(train: T, atEnds: "propel" | "run-round" | "turn"): T {
  const order = train.vehicles.map((_, i) => i);
  if (atEnds === "propel") order.reverse();
  if (atEnds === "run-round")
    order.splice(0, order.length, train.loco, ...order.filter((i) => i !== train.loco).reverse());
  return reordered(train, order, atEnds === "turn");
}
