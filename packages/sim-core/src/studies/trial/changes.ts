import { G_mps2 } from "../../parts/constants.js";
import type { Vehicle } from "../../parts/vehicles.js";
import type { Resistance } from "../../parts/vehicles.resistance.js";
import { reordered } from "../../train/rolling.js";
import { type Train, withMeshes } from "../../train/train.js";
import { both, type Machine } from "./machine.js";

// The train with one thing about it changed: what doubts and causes are made of.

/** Other vehicles in the same order, and all that follows from them. */
function withVehicles(t: Train, change: (vehicle: Vehicle, i: number) => Vehicle): Train {
  const vehicles = t.vehicles.map(change);
  const translating_kg = vehicles.reduce((sum, v) => sum + v.mass_kg + v.wheels_kg, 0);
  const changed = { ...t, vehicles, translating_kg, effective_kg: translating_kg + t.rim_kg };
  const order = vehicles.map((_, i) => i);
  return reordered(changed, order, true);
}

export const withResistance = (
  t: Train,
  change: (r: Resistance, v: Vehicle, i: number) => Partial<Resistance>,
): Train => withVehicles(t, (v, i) => ({ ...v, resistance: { ...v.resistance, ...change(v.resistance, v, i) } }));

/** Every vehicle heavier; what rolls and what starts it with it. */
export const massTimes = (t: Train, by: number): Train => withVehicles(t, (v) => ({ ...v, mass_kg: v.mass_kg * by }));

export const fluxTimes = (t: Train, by: number): Train => ({
  ...t,
  motor: { ...t.motor, flux_NmpA: t.motor.flux_NmpA.map((flux_NmpA) => flux_NmpA * by) },
});

export const withBattery_ohm = (t: Train, resistance_ohm: number): Train => ({
  ...t,
  battery: { ...t.battery, resistance_ohm },
  source_ohm: resistance_ohm + t.batteryCable_ohm,
});

export const withCable_ohm = (t: Train, batteryCable_ohm: number): Train => ({
  ...t,
  batteryCable_ohm,
  source_ohm: t.battery.resistance_ohm + batteryCable_ohm,
});

export const withRested = (t: Train, change: (volts: number) => number): Train => ({
  ...t,
  battery: {
    ...t.battery,
    rested: { x: t.battery.rested.x, y: t.battery.rested.y.map(change) },
    kneeFoot_V: change(t.battery.kneeFoot_V),
  },
});

export const gripTimes = (t: Train, by: number): Train => ({
  ...t,
  adhesion: { static: t.adhesion.static * by, sliding: t.adhesion.sliding * by },
});

/** A brake or a bearing that drags on one vehicle: as much to keep it rolling as to start it. */
export const dragged = (t: Train, drag_N: number, vehicle: number): Train =>
  withResistance(t, (r, v, i) => {
    const more = i === vehicle ? drag_N / (v.mass_kg * G_mps2) : 0;
    return { rolling: r.rolling + more, breakaway: r.breakaway + more };
  });

/** Something that drags wherever the wheels turn, on stands too; the force is at the driven rims. */
export const driveDragged = (m: Machine, drag_N: number): Machine =>
  both(m, (t) => {
    const more_Nm = (drag_N * t.radius_m * t.gears.efficiency) / t.gears.ratio;
    return { ...t, motor: { ...t.motor, drag_Nm: t.motor.drag_Nm + more_Nm } };
  });

/** Gears that lose more or less, each mesh its part of it. */
export function lossTimes(t: Train, by: number): Train {
  const { gears, meshes } = t;
  if (gears.efficiency === 1) return t;
  const efficiency = 1 - Math.min(0.6, (1 - gears.efficiency) * by);
  const power = Math.log(efficiency) / Math.log(gears.efficiency);
  return {
    ...t,
    gears: { ...gears, efficiency },
    meshes: { ...meshes, efficiency: meshes.efficiency.map((each) => each ** power) },
  };
}

/** Everything that turns heavier or lighter. */
export const turningTimes = (t: Train, by: number): Train =>
  withMeshes(t, { ...t.meshes, turning_kg: t.meshes.turning_kg.map((each_kg) => each_kg * by) });

/** Other sprockets on the motor: what turns before them is seen by the ratio squared. */
export function ratioTimes(t: Train, by: number): Train {
  const turning_kg = t.meshes.turning_kg.slice();
  turning_kg[0] *= by * by;
  return withMeshes({ ...t, gears: { ...t.gears, ratio: t.gears.ratio * by } }, { ...t.meshes, turning_kg });
}
