import { assume, type Notes } from "../errors.js";
import { type Adhesion, createAdhesion, createTransfer, type Transfer } from "../parts/adhesion.js";
import { G_mps2 } from "../parts/constants.js";
import { type PlanDefinition, planKeys, type RollingLoco } from "../parts/files.keys.js";
import { wheelsKeys } from "../parts/vehicle.keys.js";
import { createVehicles, type Vehicle, wheelset_kgm2 } from "../parts/vehicles.js";
import { airFactor } from "../parts/vehicles.resistance.js";
import type { Own, ResistanceLaw } from "./own.js";

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
  /** A law of resistance of the user's own, where there is one. */
  readonly law: RollingLaw | undefined;
  /** Weight on the driven axles on level track, N. */
  readonly driven_N: number;
  /** Of the loco alone: rolling resistance, mass, and mass with its undriven wheels as rolling. */
  readonly locoRolling_N: number;
  readonly locoBody_kg: number;
  readonly locoTranslating_kg: number;
}

/** What rolling takes beyond what it takes at a creep, of a law of the user's own. */
export interface RollingLaw {
  readonly beyond_N: (speed_mps: number) => number;
  /** Its steepest rise or fall, for the choice of a step. */
  readonly steepest_Nspm: number;
}

/**
 * What bearings and wheels take on straight track, N: forwards (`way` 1) or backwards (-1), against the way it moves. Motion,
 * steady pull and the driver's look ahead all have it from here.
 */
export const rollingAt_N = ({ rolling_N, rolling_Nspm, law }: Rolling, speed_mps: number, way = 1): number =>
  way * rolling_N + rolling_Nspm * speed_mps + (law === undefined ? 0 : way * law.beyond_N(Math.abs(speed_mps)));

/** The train without its drive, loco first. */
export function createRolling(
  loco: RollingLoco,
  plan: PlanDefinition,
  notes: Notes,
  { resistance_N, rolls, stiffens }: Own = {},
): Rolling {
  const made = createVehicles(loco, plan, notes);
  const law = resistance_N && lawOf(resistance_N, made);
  const vehicles = leftOpen(law ? rollingAt(made, law.creep_N) : made, rolls, stiffens);
  const [own] = vehicles;
  return {
    ...assemble(vehicles, 0),
    adhesion: createAdhesion(plan, notes),
    transfer: createTransfer(loco, notes),
    radius_m: loco.wheels.diameter_m / 2,
    translating_kg: vehicles.reduce((sum, v) => sum + v.mass_kg + v.wheels_kg, 0),
    law: law?.law,
    airFactor: airFactor(assume(notes, "plan.drag_area", plan.drag_area_m2, planKeys.drag_area.default)),
    locoRolling_N: own.resistance.rolling * own.mass_kg * G_mps2,
    locoBody_kg: own.mass_kg,
    locoTranslating_kg: own.mass_kg + own.wheels_kg,
    driven_N: drivenShare(loco, notes) * own.mass_kg * G_mps2,
  };
}

/** No train that this is for runs faster, and slopes are taken over this much, m/s. */
const FASTEST_mps = 40;
const SPACING_mps = 0.25;

/** A law of the user's own for this train: what it takes at a creep, and beyond that. */
function lawOf(resistance_N: ResistanceLaw, vehicles: readonly Vehicle[]) {
  const sum = (of: (v: Vehicle) => number) => vehicles.reduce((all, v) => all + of(v), 0);
  const train = { mass_kg: sum((v) => v.mass_kg), length_m: sum((v) => v.length_m), vehicles: vehicles.length };
  const creep_N = resistance_N(0, train);
  const beyond_N = (speed_mps: number) => resistance_N(speed_mps, train) - creep_N;
  let steepest_Nspm = 0;
  for (let from_mps = 0; from_mps < FASTEST_mps; from_mps += SPACING_mps) {
    const rise_N = beyond_N(from_mps + SPACING_mps) - beyond_N(from_mps);
    steepest_Nspm = Math.max(steepest_Nspm, Math.abs(rise_N) / SPACING_mps);
  }
  return { creep_N, law: { beyond_N, steepest_Nspm } };
}

/** The same vehicles, each with its share by weight of what the whole train takes at a creep. */
function rollingAt(vehicles: readonly Vehicle[], creep_N: number): Vehicle[] {
  const rolling = creep_N / (G_mps2 * vehicles.reduce((sum, v) => sum + v.mass_kg, 0));
  return vehicles.map((v) => ({
    ...v,
    resistance: {
      ...v.resistance,
      rolling,
      least: rolling,
      most: rolling,
      rolling_spm: 0,
      breakaway: Math.max(rolling, v.resistance.breakaway),
    },
  }));
}

/** The same vehicles, as free as a share of their rolling at least, and as stiff as so many times of it. */
const leftOpen = (vehicles: readonly Vehicle[], rolls = 1, stiffens = 1): readonly Vehicle[] =>
  rolls >= 1 && stiffens <= 1
    ? vehicles
    : vehicles.map((v) => {
        const { rolling } = v.resistance;
        const least = Math.min(v.resistance.least, Math.min(1, rolls) * rolling);
        const most = Math.max(v.resistance.most, Math.max(1, stiffens) * rolling);
        return { ...v, resistance: { ...v.resistance, least, most } };
      });

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

/** Some of a train's vehicles by themselves, from one in running order to before another. */
export function partOf(train: Rolling, from: number, to: number): Rolling {
  const vehicles = train.vehicles.slice(from, to);
  const translating_kg = vehicles.reduce((sum, v) => sum + v.mass_kg + v.wheels_kg, 0);
  return { ...train, ...assemble(vehicles, 0), translating_kg };
}

/** The same train with its bearings as free or as stiff as they may be: the ends of the range that the files leave. */
export const withBearings = <T extends Rolling>(train: T, end: "least" | "most"): T =>
  withRolling(train, ({ resistance }) => resistance[end]);

/** The same train with its vehicles rolling otherwise, and starting to in proportion. */
export function withRolling<T extends Rolling>(train: T, of: (vehicle: Vehicle) => number): T {
  const vehicles = train.vehicles.map((v) => {
    const { resistance } = v;
    const rolling = of(v);
    const starts = resistance.rolling > 0 ? rolling / resistance.rolling : 1;
    return { ...v, resistance: { ...resistance, rolling, breakaway: resistance.breakaway * starts } };
  });
  const loco = vehicles[train.loco];
  return {
    ...train,
    ...assemble(vehicles, train.loco),
    locoRolling_N: loco.resistance.rolling * loco.mass_kg * G_mps2,
  };
}

/** Push of the air, against the way it comes, N. */
export const airAt_N = (train: Rolling, air_mps: number): number => train.airFactor * air_mps * Math.abs(air_mps);

/** Inertia of all driven wheelsets about their axles. */
export const drivenWheels_kgm2 = ({ wheels }: RollingLoco): number =>
  wheels.driven_axles * (wheels.wheelset_inertia_kgm2 ?? wheelset_kgm2(wheels.diameter_m));

function drivenShare(loco: RollingLoco, notes: Notes): number {
  const { driven_axles, driven_share, axles = wheelsKeys.axles.default.value } = loco.wheels;
  const ofAxles = Math.min(1, driven_axles / axles);
  return assume(notes, "loco.wheels.driven_share", driven_share, ofAxles);
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
