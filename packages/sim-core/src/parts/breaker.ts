import { assume, type Notes } from "../errors.js";
import { wiringKeys } from "./drive.keys.js";
import type { LocoDefinition } from "./files.keys.js";

/**
 * Breaker or fuse in the battery lead, as a thermal image that trips at 1,
 *
 *     x' = ((I/In)²/m² - x)/τ
 *
 * and, for a breaker, a magnetic trip. With none fitted the rating is Infinity and the image stays at 0.
 */
export interface Breaker {
  readonly kind: "none" | "breaker" | "fuse";
  readonly rating_A: number;
  /** m²: square of the current, as a multiple of the rating, that would only just trip it in the end. */
  readonly imageSquare: number;
  readonly tau_s: number;
  /** Trips at once from here on. */
  readonly magnetic_A: number;
  /** IEC 60898-1 only says that it trips at once somewhere between these, and says it of alternating current. */
  readonly magneticBand_A: readonly [from: number, to: number];
}

/**
 * Between the current a breaker must carry and the one that must trip it, 1.13 and 1.45 In of IEC 60898-1: their
 * geometric mean, 1.28. Derived, not the standard's: with τ of 120 s it trips in 181 s at 1.45 In and 35 s at 2.55 In (the
 * standard: 1 to 60 s, above 32 A 1 to 120 s).
 */
const BREAKER_SQUARE = 1.28 ** 2;
const TAU_s = 120;

/** A fuse carries 1.00 and opens within an hour at 1.35 times its rating (UL 248-14): again the geometric mean. */
const FUSE_SQUARE = 1.0 * 1.35;

/** IEC 60898-1: multiples of the rating between which a breaker trips magnetically (on alternating current). */
export const MAGNETIC_BAND = { B: [3, 5], C: [5, 10], D: [10, 20] } as const;

const NONE: Breaker = {
  kind: "none",
  rating_A: Number.POSITIVE_INFINITY,
  imageSquare: BREAKER_SQUARE,
  tau_s: TAU_s,
  magnetic_A: Number.POSITIVE_INFINITY,
  magneticBand_A: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
};

export function createBreaker(definition: LocoDefinition["wiring"], notes: Notes): Breaker {
  const { breaker, fuse } = definition ?? {};
  if (breaker && fuse) {
    notes.problems.push({ path: "loco.wiring.fuse", message: "give a breaker or a fuse, not both" });
  }
  if (breaker) {
    const { curve } = wiringKeys.breaker.keys;
    const [low, high] = MAGNETIC_BAND[assume(notes, "loco.wiring.breaker.curve", breaker.curve, curve.default)];
    return {
      kind: "breaker",
      rating_A: breaker.rating_A,
      imageSquare: BREAKER_SQUARE,
      tau_s: TAU_s,
      magnetic_A: Math.sqrt(low * high) * breaker.rating_A,
      magneticBand_A: [low * breaker.rating_A, high * breaker.rating_A],
    };
  }
  if (fuse) return { ...NONE, kind: "fuse", rating_A: fuse.rating_A, imageSquare: FUSE_SQUARE };
  return NONE;
}

/** How fast the thermal image rises. */
export const imageRate_ps = (b: Breaker, image: number, current_A: number): number =>
  ((current_A / b.rating_A) ** 2 / b.imageSquare - image) / b.tau_s;

/** Time to the trip at a steady current, from an image; 0 where it trips at once, Infinity where it holds. */
export function secondsToTrip(b: Breaker, current_A: number, image = 0): number {
  if (current_A >= b.magnetic_A || image >= 1) return 0;
  const settles = (current_A / b.rating_A) ** 2 / b.imageSquare;
  return settles > 1 ? b.tau_s * Math.log((settles - image) / (settles - 1)) : Number.POSITIVE_INFINITY;
}
