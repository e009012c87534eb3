import type { Gears } from "../parts/gears.js";

/**
 * What turns between motor and rail, and the meshes between: rotor, layshafts, driven wheels. A mesh loses a share of what
 * passes through it, so that what speeds up the rotor pays nothing: driving, T = J α + F r/(G η).
 *
 * All as seen at the tread: J (G/r)² is a mass, T G/r a force.
 */
export interface Meshes {
  /** What turns before the first mesh, between each two and after the last: rotor, layshafts, driven wheels; kg. */
  readonly turning_kg: Float64Array;
  /** Share of the power that comes through each mesh. */
  readonly efficiency: Float64Array;
}

export function meshesOf(gears: Gears, rotor_kgm2: number, wheels_kgm2: number, radius_m: number): Meshes {
  const { stages } = gears;
  const turning_kg = new Float64Array(stages.length + 1);
  let perRadius_pm = gears.ratio / radius_m;
  turning_kg[0] = rotor_kgm2 * perRadius_pm ** 2;
  for (const [i, stage] of stages.entries()) {
    perRadius_pm /= stage.ratio;
    const more_kgm2 = i === stages.length - 1 ? wheels_kgm2 : 0;
    turning_kg[i + 1] = (stage.drivenInertia_kgm2 + more_kgm2) * perRadius_pm ** 2;
  }
  return { turning_kg, efficiency: Float64Array.from(stages, (stage) => stage.efficiency) };
}

/** Share of a force that a mesh passes on: less of one that drives the way the rims turn, and it takes more to drive back. */
const passed = (force_N: number, way: number, efficiency: number): number =>
  force_N * way >= 0 ? efficiency : 1 / efficiency;

/**
 * Force that comes out of the last mesh, at the wheels, from one at the motor's shaft while all that turns speeds up.
 * @param carried_N where given, what goes into each mesh, and out of the last
 */
export function throughMeshes_N(
  m: Meshes,
  shaft_N: number,
  acceleration_mps2: number,
  way: number,
  carried_N?: Float64Array,
): number {
  const last = m.efficiency.length;
  let force_N = shaft_N;
  for (let i = 0; i < last; i++) {
    force_N -= m.turning_kg[i] * acceleration_mps2;
    if (carried_N) carried_N[i] = force_N;
    force_N *= passed(force_N, way, m.efficiency[i]);
  }
  if (carried_N) carried_N[last] = force_N;
  return force_N;
}

/** The force at the motor's shaft that brings one to the wheels: the same, backwards. */
export function shaftFor_N(m: Meshes, wheels_N: number, acceleration_mps2: number, way: number): number {
  let force_N = wheels_N;
  for (let i = m.efficiency.length - 1; i >= 0; i--) {
    force_N = force_N / passed(force_N, way, m.efficiency[i]) + m.turning_kg[i] * acceleration_mps2;
  }
  return force_N;
}

/** What `turn` finds: how the rims speed up, and the force that comes out of the last mesh. */
export interface Turned {
  rimAcceleration_mps2: number;
  rim_N: number;
}

/**
 * Finds the acceleration at which the force at the motor's shaft, what turns and a mass that moves along with the rims
 * balance what is against them. What is left over falls with the acceleration along straight lines, ever steeper or ever
 * less steep, one for each mesh that changes sides: Newton's steps go from line to line and end on the right one.
 */
export function turn(
  m: Meshes,
  shaft_N: number,
  against_N: number,
  along_kg: number,
  way: number,
  found: Turned,
): void {
  const last = m.efficiency.length;
  const atWheels_kg = m.turning_kg[last] + along_kg;
  let acceleration_mps2 = 0;
  let force_N = 0;
  let before_kg = Number.NaN;
  // One line more than meshes, and one step to see that it is the right one; on a bend rounding could go on for ever.
  for (let step = 0; step <= last + 2; step++) {
    force_N = shaft_N;
    let moved_kg = 0;
    for (let i = 0; i < last; i++) {
      force_N -= m.turning_kg[i] * acceleration_mps2;
      const share = passed(force_N, way, m.efficiency[i]);
      force_N *= share;
      moved_kg = (moved_kg + m.turning_kg[i]) * share;
    }
    moved_kg += atWheels_kg;
    if (moved_kg === before_kg) break;
    before_kg = moved_kg;
    acceleration_mps2 += (force_N - against_N - atWheels_kg * acceleration_mps2) / moved_kg;
  }
  found.rimAcceleration_mps2 = acceleration_mps2;
  found.rim_N = force_N;
}

/**
 * How much one newton at the motor's shaft slows what the rims drive, a mass that moves along with them included, m/s² a
 * newton: the most that it can do, the loss of every mesh on its side.
 */
export function slowedBy_pkg(m: Meshes, along_kg: number): number {
  let moved_kg = m.turning_kg[0];
  let share = 1;
  for (let i = 0; i < m.efficiency.length; i++) {
    share *= m.efficiency[i];
    moved_kg += share * m.turning_kg[i + 1];
  }
  return 1 / (moved_kg + share * along_kg);
}
