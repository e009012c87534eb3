import { AIR_kgpm3 } from "./constants.js";
import { resistanceKeys } from "./vehicle.keys.js";

/** What resists one vehicle's running, as shares of its weight. */
export interface Resistance {
  readonly rolling: number;
  /** Between what it may lie where it was assumed; the figure itself where it was given. */
  readonly least: number;
  readonly most: number;
  readonly rolling_spm: number;
  readonly breakaway: number;
  /** Curve resistance is this length over the radius. */
  readonly slidingLength_m: number;
}

/**
 * Sliding length of a rigid wheelbase, F (D + L) / 2: longitudinal slip over half the gauge D, lateral over half the
 * wheelbase L, F the friction of wheel on rail (Morrison, Minutes of the ICE vol. 31, in Molesworth's Pocket-book p. 219).
 * Good to a factor of 1.5.
 */
export const slidingLength_m = (gauge_m: number, wheelbase_m: number): number =>
  (resistanceKeys.sliding_length.default.value * (gauge_m + wheelbase_m)) / 2;

/** Force of the air per square of the air speed, N s²/m². */
export const airFactor = (dragArea_m2: number): number => 0.5 * AIR_kgpm3 * dragArea_m2;
