import { type Breaker, MAGNETIC_BAND } from "./breaker.js";

/**
 * Multiples of the rating that a breaker must carry for an hour (above 63 A for two) and must trip at within it
 * (IEC 60898-1), and that a fuse must carry for good and open at within an hour (UL 248-14).
 */
const CONVENTIONAL = { breaker: [1.13, 1.45], fuse: [1, 1.35] } as const;

/** The greatest current that is sure not to trip it; Infinity where nothing is fitted. */
export const surelyHolds_A = ({ kind, rating_A }: Breaker): number =>
  kind === "none" ? Number.POSITIVE_INFINITY : CONVENTIONAL[kind][0] * rating_A;

/** The least current that is sure to trip it within an hour or two; Infinity where nothing is fitted. */
export const surelyTrips_A = ({ kind, rating_A }: Breaker): number =>
  kind === "none" ? Number.POSITIVE_INFINITY : CONVENTIONAL[kind][1] * rating_A;

/** On direct current the magnetic trip acts at about this multiple of its band (from memory: makers' notes). */
export const MAGNETIC_ON_DC = 1.4;

/** Most that a small breaker is made to break on direct current (IEC 60898-2: up to 220 V a pole, 125 A and 10 kA). */
export const MOST_BREAKING_A = 10_000;

/** A magnetic trip is over within this time (IEC 60898-1). */
export const MAGNETIC_s = 0.1;

/** Preferred ratings of IEC 60898-1. */
const RATINGS_A = [6, 8, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125] as const;

/** A load that lasts may take this share of the rating: the usual rule of choosing a fuse 1.25 times the load. */
export const LASTING_SHARE = 0.8;

export type Curve = keyof typeof MAGNETIC_BAND;

/** A breaker to buy. */
export interface ChosenBreaker {
  rating_A: number;
  curve: Curve;
}

/**
 * The smallest standard breaker that a load may lie on: its rms at most 0.8 of the rating, what may last up a long climb
 * held for sure, and its peak below the magnetic band. Null where none is large enough.
 */
export function smallestBreaker(rms_A: number, lasting_A: number, peak_A: number): ChosenBreaker | null {
  for (const rating_A of RATINGS_A) {
    if (rms_A > LASTING_SHARE * rating_A || lasting_A > CONVENTIONAL.breaker[0] * rating_A) continue;
    const curve = (["B", "C", "D"] as const).find((each) => peak_A < MAGNETIC_BAND[each][0] * rating_A);
    if (curve) return { rating_A, curve };
  }
  return null;
}
