import { brakeKeys } from "../../parts/brakes.keys.js";

/** A brake's delay and half its build-up: the time it may be thought to come on at once after (the keys' defaults). */
export const brakeComesOn_s = (): number => brakeKeys.delay.default.value + brakeKeys.build_up.default.value / 2;

/** Braked wheels pass on this share of their load on wet rail; tables give 0.05 to 0.15 (common practice, no source). */
export const WET_BRAKING = 0.12;

export interface Braking {
  /** Braking force at the rail. */
  force_N: number;
  retardation_mps2: number;
}

/**
 * The steady braking force that stops a train within a distance of where the driver should act. Until the brake is on it
 * runs by itself, faster where the line falls; no credit is taken for rolling resistance. Null where it has run past by
 * then.
 * @param before_s until the brake is on; @param mass_kg with all that turns; @param down_N pull of gravity down the line
 */
export function stopWithin(
  distance_m: number,
  speed_mps: number,
  before_s: number,
  mass_kg: number,
  down_N: number,
): Braking | null {
  const gained_mps2 = down_N / mass_kg;
  const left_m = distance_m - speed_mps * before_s - (gained_mps2 * before_s ** 2) / 2;
  if (left_m <= 0) return null;
  const retardation_mps2 = (speed_mps + gained_mps2 * before_s) ** 2 / (2 * left_m);
  return { force_N: mass_kg * retardation_mps2 + down_N, retardation_mps2 };
}
