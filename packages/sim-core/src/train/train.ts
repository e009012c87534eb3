import { type Meshes, meshesOf } from "../drive/meshes.js";
import { type Notes, newNotes } from "../errors.js";
import type { Charger } from "../parts/battery.charge.js";
import { createCharger } from "../parts/battery.charger.js";
import { highest_V } from "../parts/battery.highest.js";
import { type Battery, createBattery } from "../parts/battery.js";
import { batteryKeys } from "../parts/battery.keys.js";
import { type Brake, createBrakes } from "../parts/brakes.js";
import { type Breaker, createBreaker } from "../parts/breaker.js";
import { G_mps2 } from "../parts/constants.js";
import { type Controller, createController } from "../parts/controller.js";
import type { LocoDefinition, PlanDefinition } from "../parts/files.keys.js";
import { createGears, type Gears } from "../parts/gears.js";
import { createHeat } from "../parts/heat.js";
import type { MotorHeat } from "../parts/heat.nodes.js";
import { createMotor, type Motor } from "../parts/motor.js";
import { ratedLosses } from "../parts/motor.points.js";
import { createProtection, type Protection } from "../parts/protection.js";
import { createSwitches, lookAtSwitches, type Switch } from "../parts/switches.js";
import { carsOf, carWheel_m } from "../parts/vehicles.js";
import { createWiring, type Wiring } from "../parts/wiring.js";
import type { Own } from "./own.js";
import { createRolling, drivenWheels_kgm2, type Rolling } from "./rolling.js";
import { createShafts, type Shafts } from "./shafts.js";

/** The whole train: its parts, and the numbers the motion needs, worked out once. */
export interface Train extends Rolling {
  readonly motor: Motor;
  readonly heat: MotorHeat;
  readonly gears: Gears;
  /** Motor shaft, layshafts and axle as far as they are given: nothing of them moves the train. */
  readonly shafts: Shafts;
  readonly controller: Controller;
  readonly battery: Battery;
  /** Null where the file gives none. */
  readonly charger: Charger | null;
  readonly breaker: Breaker;
  readonly protection: Protection;
  readonly switches: readonly Switch[];
  /** Those of the battery's main circuit by what they break, the weakest first; such as do not say it are not among them. */
  readonly breaking: readonly Breaking[];
  /** Brakes of loco and cars, in the order of the files. */
  readonly brakes: readonly Brake[];
  /** Weight on the braked axles that are not driven, of each vehicle in the order it was made up, N. */
  readonly brakedAxles_N: Float64Array;
  /** Inertia of the driven wheelsets. */
  readonly drivenWheels_kgm2: number;
  /** Rotor, layshafts and driven wheels, and what is lost between them. */
  readonly meshes: Meshes;
  /** All three together as mass at the tread, and without what turns with the wheels. */
  readonly rim_kg: number;
  readonly beforeLastMesh_kg: number;
  /** All that moves while the wheels grip: its energy is half of this times the speed squared. */
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

/** The most volts that switches and all else in the battery's circuit see. */
export const mostVolts_V = ({
  battery,
  charger,
  controller,
}: Pick<Train, "battery" | "charger" | "controller">): number =>
  highest_V(battery, charger, controller.electricBrake === "regenerative" ? controller.regenLimit_V : Number.NaN);

/** A switch that the battery's current goes through, and what it can break of that. */
export interface Breaking {
  readonly name: "isolator" | "dead_man";
  readonly breaks_A: number;
}

const breakingOf = (switches: readonly Switch[]): Breaking[] =>
  switches
    .flatMap(({ name, breaks_A, stands }) =>
      name === "reverser" || stands === "control" || breaks_A === null ? [] : [{ name, breaks_A }],
    )
    .sort((a, b) => a.breaks_A - b.breaks_A);

/**
 * Makes the train from its definitions; every default is listed and every contradiction noted.
 * @param own what stands in no file
 */
export function createTrain(
  loco: LocoDefinition,
  plan: PlanDefinition,
  air_degC: number,
  notes: Notes,
  own: Own = {},
): Train {
  const rolling = createRolling(loco, plan, notes, own);
  const before = notes.problems.length;
  const motor = createMotor(
    loco.motor,
    loco.battery.each.voltage_V * (loco.battery.in_series ?? batteryKeys.in_series.default.value),
    notes,
    own,
  );
  const heat = createHeat(loco.motor.heat, ratedLosses(motor), notes, notes.problems.length === before);
  const gears = createGears(loco.gears, notes);
  const battery = createBattery(loco.battery, air_degC, notes);
  const controller = createController(
    loco.controller,
    battery.cells,
    loco.battery.in_series ?? batteryKeys.in_series.default.value,
    loco.battery.chemistry,
    notes,
  );
  if (motor.kind === "series" && controller.electricBrake !== "none") {
    const message =
      "braking with a series motor is not modelled; only a permanent magnet motor brakes electrically here";
    notes.problems.push({ path: "loco.controller.electric_brake", message });
  }
  const wiring = createWiring(loco.wiring, air_degC, notes);
  const protection = createProtection(loco.battery.protection, notes);
  const brakes = trainBrakes(loco, plan, rolling, gears, notes);
  const switches = createSwitches(loco.wiring, notes);
  const charger = createCharger(loco.battery.charger, battery, protection.high_V, notes);
  lookAtSwitches(switches, mostVolts_V({ battery, charger, controller }), notes);
  const wheels_kgm2 = drivenWheels_kgm2(loco);
  const standing_W = wiring.accessories_W + controller.standing_W;
  return {
    ...rolling,
    motor,
    heat,
    gears,
    shafts: createShafts(loco, gears, notes),
    controller,
    battery,
    charger,
    breaker: createBreaker(loco.wiring, notes),
    protection,
    switches,
    breaking: breakingOf(switches),
    brakes,
    brakedAxles_N: Float64Array.from(rolling.vehicles, (_, i) =>
      Math.max(0, ...brakes.filter((b) => b.vehicle === i).map((b) => b.axleWeight_N)),
    ),
    drivenWheels_kgm2: wheels_kgm2,
    ...turning(meshesOf(gears, motor.inertia_kgm2, wheels_kgm2, rolling.radius_m), rolling.translating_kg),
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
    motorToAxle: gears.ratio,
    throughGears: gears.efficiency,
  };
  const brakes = createBrakes(loco.brakes, own, notes);
  let vehicle = 1;
  for (const [i, car] of (plan.cars ?? []).entries()) {
    for (let j = 0; j < carsOf(car); j++, vehicle++) {
      const radius_m = carWheel_m(car, loco.gauge_m) / 2;
      const on = {
        vehicle,
        path: `plan.cars.${i + 1}.brakes`,
        weight_N: weight_N(vehicle),
        radius_m,
        drivenShare: 0,
        motorToAxle: Number.NaN,
        throughGears: Number.NaN,
      };
      brakes.push(...createBrakes(car.brakes, on, j === 0 ? notes : newNotes(notes)));
    }
  }
  return brakes;
}

/** A microgram: rims with no mass at all would be stopped by their brake before it began. */
const LIGHTEST_RIM_kg = 1e-9;

/** What turns as mass at the tread: the sum of J/r², never a percentage. */
function turning(meshes: Meshes, translating_kg: number) {
  const turning_kg = meshes.turning_kg.slice();
  const last = meshes.efficiency.length;
  const sum_kg = () => turning_kg.reduce((sum, each_kg) => sum + each_kg, 0);
  turning_kg[last] += Math.max(0, LIGHTEST_RIM_kg - sum_kg());
  const rim_kg = sum_kg();
  const beforeLastMesh_kg = rim_kg - turning_kg[last];
  return { meshes: { ...meshes, turning_kg }, rim_kg, beforeLastMesh_kg, effective_kg: translating_kg + rim_kg };
}

/** The same train with something else between its motor and its wheels. */
export const withMeshes = (train: Train, meshes: Meshes): Train => ({
  ...train,
  ...turning(meshes, train.translating_kg),
});
