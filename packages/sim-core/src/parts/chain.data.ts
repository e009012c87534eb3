import type { ChainSize } from "./chain.keys.js";

/** A single-strand roller chain as its standard gives it. */
export interface Chain {
  readonly size: ChainSize;
  readonly pitch_m: number;
  /** Diameter of the roller; of the bush where the chain has no rollers (25, 35). */
  readonly roller_m: number;
  /** Between the inner plates: the sprocket is a little thinner. */
  readonly innerWidth_m: number;
  /** Least breaking load. */
  readonly breaking_N: number;
  readonly mass_kgpm: number;
  /** Factors of the power rating; absent where no published rating covers the size. */
  readonly rating: RatingFactors | undefined;
  /** Where the breaking load comes from, the figure that safety hangs on. */
  readonly source: string;
}

/** K1, for fatigue of the plates, and K2, for wear of rollers and bushes (formula of the American chain makers' tables). */
export interface RatingFactors {
  readonly plates: number;
  readonly rollers: number;
}

const STANDARD: RatingFactors = { plates: 0.004, rollers: 17 };
const WITHOUT_ROLLERS: RatingFactors = { plates: 0.004, rollers: 29 };
const LIGHT: RatingFactors = { plates: 0.0022, rollers: 3.4 };

const ISO_FROM_MEMORY = "least of ISO 606, from memory; a catalogue to DIN 8187 and BS 228 prints a little more";
const ASME = "ASME B29.1 minimum, as amesweb.info tabulates it";

/**
 * British sizes: pitch, roller, inner width and mass from a catalogue sheet to DIN 8180/8187 and BS 228. They borrow the
 * rating of the American chain of their pitch where that chain is no stronger (06B of 35, 08B of 40, 10B of 50): Bhandari's
 * table for 10B lies 8 % above it; for 06B and 08B there was no table to try it on. American sizes: ASME B29.1, dimensions
 * from amesweb.info, masses from a maker's sheet, inner widths from memory.
 */
/** Taken where the file names none (common practice, no source). */
export const USUAL_CHAIN: ChainSize = "08B";

export const CHAINS: Readonly<Record<ChainSize, Chain>> = {
  // Two columns of the catalogue give 0.11 and 0.15 kg/m. (One web page calls it 6.35 mm; that is number 25.)
  "04B": british("04B", 6, 4, 2.8, 3000, 0.13, undefined, "catalogue to DIN 8187 and BS 228"),
  "05B": british("05B", 8, 5, 3, 4400, 0.18, undefined, ISO_FROM_MEMORY),
  "06B": british("06B", 9.525, 6.35, 5.72, 8900, 0.41, WITHOUT_ROLLERS, ISO_FROM_MEMORY),
  "08B": british("08B", 12.7, 8.51, 7.75, 17_800, 0.7, STANDARD, ISO_FROM_MEMORY),
  "081": british("081", 12.7, 7.75, 3.3, 8000, 0.28, undefined, "ISO 606, from memory"),
  "10B": british("10B", 15.875, 10.16, 9.65, 22_200, 0.91, STANDARD, "Bhandari, Design of Machine Elements, ex. 14.7"),
  "12B": british("12B", 19.05, 12.07, 11.68, 28_900, 1.18, undefined, "ISO 606, from memory"),
  "25": american("25", 6.35, 3.3, 3.18, 3470, 0.125, WITHOUT_ROLLERS),
  "35": american("35", 9.525, 5.08, 4.77, 7830, 0.313, WITHOUT_ROLLERS),
  "40": american("40", 12.7, 7.92, 7.85, 13_900, 0.61, STANDARD),
  "41": american("41", 12.7, 7.77, 6.25, 6670, 0.417, LIGHT),
  "50": american("50", 15.875, 10.16, 9.4, 21_700, 1.012, STANDARD),
  "60": american("60", 19.05, 11.91, 12.57, 31_300, 1.488, STANDARD),
};

function british(
  size: ChainSize,
  pitch_mm: number,
  roller_mm: number,
  inner_mm: number,
  breaking_N: number,
  mass_kgpm: number,
  rating: RatingFactors | undefined,
  source: string,
): Chain {
  return {
    size,
    pitch_m: pitch_mm / 1000,
    roller_m: roller_mm / 1000,
    innerWidth_m: inner_mm / 1000,
    breaking_N,
    mass_kgpm,
    rating,
    source,
  };
}

function american(
  size: ChainSize,
  pitch_mm: number,
  roller_mm: number,
  inner_mm: number,
  breaking_N: number,
  mass_kgpm: number,
  rating: RatingFactors,
): Chain {
  return british(size, pitch_mm, roller_mm, inner_mm, breaking_N, mass_kgpm, rating, ASME);
}

const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

/**
 * Tooth counts that shops keep. British: a stock list of 06B has 17 to 28, 30, 38, 45 and then 3 to 6 times 19; the pilot-bore
 * sprockets from 9 to 16 are from memory. American: from memory.
 */
const BRITISH_STOCK = [...range(9, 28), 30, 38, 45, 57, 76, 95, 114];
const AMERICAN_STOCK = [...range(9, 30), 32, 35, 36, 40, 42, 45, 48, 54, 60, 70, 72, 80, 84, 96, 112];

/** Tooth counts that shops keep for a chain; a pattern to choose from, not a promise. */
export const stockedTeeth = (size: ChainSize): readonly number[] =>
  /^\d\d$/.test(size) ? AMERICAN_STOCK : BRITISH_STOCK;
