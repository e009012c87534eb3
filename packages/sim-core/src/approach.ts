import { motion } from "./motion.js";
import { stretch } from "./numeric/tables.js";
import { released } from "./parts/brakes.application.js";
import * as at from "./state.js";
import type { Working } from "./working.js";

/** A stop is made when the leading end rests within this of its mark, m. */
export const STOP_WITHIN_m = 0.5;
/** Spacing of the curve's points, m. */
const SPACING_m = 0.2;

/**
 * How fast a train may run and still come to rest at its mark with power off: energy per kilogram, v²/2, against
 * chainage. Where the road falls too steeply there is no such speed, and the curve begins beyond it.
 */
export interface Approach {
  readonly along_m: Float64Array;
  readonly energy_Jpkg: Float64Array;
  /** Did the curve end because the train cannot be stopped from further back without a brake? */
  readonly cannotStopBefore_m: number;
}

/** The curve's value at a chainage; Infinity before it begins. */
export function approachEnergy_Jpkg(a: Approach, along_m: number): number {
  const { along_m: x, energy_Jpkg: e } = a;
  if (along_m < x[0]) return Number.POSITIVE_INFINITY;
  const i = stretch(x, along_m, Math.floor((along_m - x[0]) / SPACING_m));
  return Math.max(0, e[i] + ((e[i + 1] - e[i]) * (along_m - x[i])) / (x[i + 1] - x[i]));
}

/**
 * Integrates dw/ds = a(s, √2w), w = v²/2, back from rest at the mark, the train coasting.
 * @param top_mps speeds above this are of no interest
 */
export function coastingIn(w: Working, mark_m: number, top_mps: number): Approach {
  const coasting: Working = {
    ...w,
    mode: { ...at.atRest(w.train.vehicles.length), train: 1, rim: 1 },
    now: at.newInstant(),
    lever: 0,
    application: released(w.train.brakes),
    axleBrake_N: w.axleBrake_N.slice(),
    heights_m: w.heights_m.slice(),
    turns_rad: w.turns_rad.slice(),
    hints: w.hints.slice(),
  };
  const y = w.y.slice();
  const dydt = new Float64Array(at.SIZE);
  const slope = (along_m: number, energy_Jpkg: number): number => {
    y[at.POSITION] = along_m;
    y[at.SPEED] = Math.sqrt(2 * Math.max(0, energy_Jpkg));
    y[at.RIM_SPEED] = y[at.SPEED];
    motion(coasting, dydt, y, w.time_s);
    return dydt[at.SPEED];
  };
  const points: [number, number][] = [[mark_m, 0]];
  const start_m = w.train.length_m;
  let along_m = mark_m;
  let energy = 0;
  let cannotStopBefore_m = Number.NEGATIVE_INFINITY;
  while (along_m > start_m && energy < top_mps ** 2 / 2) {
    const h = -Math.min(SPACING_m, along_m - start_m);
    const k1 = slope(along_m, energy);
    const k2 = slope(along_m + h / 2, energy + (h / 2) * k1);
    const k3 = slope(along_m + h / 2, energy + (h / 2) * k2);
    const k4 = slope(along_m + h, energy + h * k3);
    energy += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    if (energy <= 0) {
      cannotStopBefore_m = along_m;
      break;
    }
    along_m += h;
    points.push([along_m, energy]);
  }
  points.reverse();
  return {
    along_m: Float64Array.from(points, (p) => p[0]),
    energy_Jpkg: Float64Array.from(points, (p) => p[1]),
    cannotStopBefore_m,
  };
}
