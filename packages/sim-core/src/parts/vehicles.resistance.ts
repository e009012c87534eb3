import { AIR_kgpm3 } from "./constants.js";

/** What resists one vehicle's running, as shares of its weight. */
export interface Resistance {
  readonly rolling: number;
  readonly rolling_spm: number;
  readonly breakaway: number;
  /** Curve resistance is this length over the radius. */
  readonly slidingLength_m: number;
}

/**
 * What a vehicle is taken to roll at, as a share of its weight, and how many times that it takes to start. Rolling: common
 * practice, no source. Plain bearings run dry as they stand: 20 lb a ton to start and 6 to run (W. L. Webb, Railroad
 * Construction, p. 594); 1.5 for ball bearings is common practice, no source.
 */
export const BEARINGS = {
  ball: { rolling: 0.01, toStart: 1.5 },
  plain: { rolling: 0.015, toStart: 20 / 6 },
} as const;

/** Wheel on rail friction that a rigid wheelbase slides against in a curve (0.1 to 0.27: Morrison in Molesworth p. 219). */
const CURVE_FRICTION = 0.2;

/**
 * Sliding length of a rigid wheelbase, F (D + L) / 2: longitudinal slip over half the gauge D, lateral over half the
 * wheelbase L (Morrison, Minutes of the ICE vol. 31, in Molesworth's Pocket-book p. 219). Good to a factor of 1.5.
 */
export const slidingLength_m = (gauge_m: number, wheelbase_m: number): number =>
  (CURVE_FRICTION * (gauge_m + wheelbase_m)) / 2;

/** Force of the air per square of the air speed, N s²/m². */
export const airFactor = (dragArea_m2: number): number => 0.5 * AIR_kgpm3 * dragArea_m2;
