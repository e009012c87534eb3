import { G_mps2 } from "../../parts/constants.js";
import type { Vehicle } from "../../parts/vehicles.js";
import * as at from "../../state.js";
import type { Rolling } from "../../train/rolling.js";
import type { Working } from "../../working.js";

/** Where each vehicle of a train as it runs stood when it was made up: brakes know their vehicles by that. */
export const madeUpPlaces = (running: Rolling, madeUp: Rolling): number[] =>
  running.vehicles.map((vehicle) => Math.max(0, madeUp.vehicles.indexOf(vehicle)));

/** What the vehicles of a train take as it stands in `w.now`, each by itself, along the way it runs: N, in running order. */
export function takenBy_N(w: Working, places: readonly number[], taken_N: Float64Array): void {
  const { train, now, mode, y } = w;
  const way = mode.train;
  const cars_m = train.length_m - train.vehicles[train.loco].length_m;
  train.vehicles.forEach((vehicle, i) => {
    const gravity_N = train.gravity_Npm[i] * (w.heights_m[i] - w.heights_m[i + 1]);
    // As the loco's weight transfer has it, what is drawn behind the loco takes the air.
    const air_N = i === train.loco || cars_m === 0 ? 0 : (now.air_N * vehicle.length_m) / cars_m;
    taken_N[i] = gravity_N + air_N;
    if (way === 0) return;
    const curves_N = train.curving_Nprad[i] * (w.turns_rad[i] - w.turns_rad[i + 1]);
    const moving_N = (vehicle.mass_kg + vehicle.wheels_kg) * now.acceleration_mps2;
    taken_N[i] += moving_N + rollingOf_N(train, vehicle, y[at.SPEED], way) + way * (curves_N + brakeOf_N(w, places[i]));
  });
}

function rollingOf_N({ mass_kg, law }: Rolling, vehicle: Vehicle, speed_mps: number, way: number): number {
  const { rolling, rolling_spm } = vehicle.resistance;
  const beyond_N = law === undefined ? 0 : (law.beyond_N(Math.abs(speed_mps)) * vehicle.mass_kg) / mass_kg;
  return vehicle.mass_kg * G_mps2 * (way * rolling + rolling_spm * speed_mps) + way * beyond_N;
}

/** What brakes give on axles that are not driven, rolling, locked or standing. @param place as the train was made up */
export function brakeOf_N({ train, mode, axleBrake_N }: Working, place: number): number {
  if (mode.locked[place]) return train.adhesion.sliding * train.brakedAxles_N[place];
  const full_N = axleBrake_N[place];
  return mode.train === 0 ? Math.min(full_N, train.adhesion.static * train.brakedAxles_N[place]) : full_N;
}

/**
 * The force in a coupling, pull +, push -, N: what all that is beyond it from the loco takes. Of a train that stands, what
 * gravity and wind make of it less what its own brakes hold; its bearings hold nothing, the safe side.
 * @param coupling counted from the loco, the first is 1
 */
export function couplingForce_N(
  w: Working,
  coupling: number,
  taken_N: Float64Array,
  places: readonly number[],
): number {
  const { train, mode } = w;
  const ahead = train.loco !== 0;
  const from = ahead ? 0 : coupling;
  const to = ahead ? train.vehicles.length - coupling : train.vehicles.length;
  let force_N = 0;
  let held_N = 0;
  for (let i = from; i < to; i++) {
    force_N += taken_N[i];
    if (mode.train === 0) held_N += brakeOf_N(w, places[i]);
  }
  if (mode.train === 0) force_N = Math.sign(force_N) * Math.max(0, Math.abs(force_N) - held_N);
  return ahead ? -force_N : force_N;
}
