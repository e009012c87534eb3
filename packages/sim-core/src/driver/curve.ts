import { stretch } from "../numeric/tables.js";

/** Spacing of the curve's points, m. */
export const SPACING_m = 0.2;

/**
 * How fast a train may run and still come to rest at its mark, or down to a limit there: energy per kilogram, v²/2, against
 * the way to the mark (negative before it), braking gently or, with no brake, coasting. Where the road falls too steeply
 * to stop there is no such speed, and the curve begins beyond it.
 */
export interface Approach {
  readonly along_m: Float64Array;
  readonly energy_Jpkg: Float64Array;
  /** Brakes put on from off give an ordinary stop's force so much later, s; 0 without a brake. */
  readonly lead_s: number;
  /** From further back than this the train cannot be stopped; Infinity where it can. */
  readonly stopsFrom_m: number;
}

/** The stretch of the curve that holds a place. */
const stretchOf = (a: Approach, along_m: number): number =>
  stretch(a.along_m, along_m, Math.floor((along_m - a.along_m[0]) / SPACING_m));

/** The curve's value at a place; Infinity before it begins, beyond the mark what it is there. */
export function approachEnergy_Jpkg(a: Approach, along_m: number): number {
  const { along_m: x, energy_Jpkg: e } = a;
  if (along_m < x[0]) return Number.POSITIVE_INFINITY;
  if (along_m >= x[x.length - 1]) return e[e.length - 1];
  const i = stretchOf(a, along_m);
  return e[i] + ((e[i + 1] - e[i]) * (along_m - x[i])) / (x[i + 1] - x[i]);
}

/**
 * The curve's own acceleration there, negative where it slows: what the driver asks for beside closing the gap. Beyond the
 * mark of a limit there is nothing more to slow for.
 */
export function approachAcceleration_mps2(a: Approach, along_m: number): number {
  const last = a.along_m.length - 1;
  if (along_m >= a.along_m[last] && a.energy_Jpkg[last] > 0) return 0;
  const i = stretchOf(a, along_m);
  return (a.energy_Jpkg[i + 1] - a.energy_Jpkg[i]) / (a.along_m[i + 1] - a.along_m[i]);
}

/** A lower limit ahead that the train is slowing for. */
export interface LimitAhead {
  /** Of the post it begins at. */
  readonly at_m: number;
  readonly curve: Approach;
}
