/** Exponents of ISO 281. */
const EXPONENT = { ball: 3, roller: 10 / 3 } as const;
export type BearingType = keyof typeof EXPONENT;
export const lifeExponent = (type: BearingType): number => EXPONENT[type];

const MILLION = 1e6;
const HOUR_s = 3600;

/**
 * Equivalent dynamic load, N: P = X V Fr + Y Fa, with X and Y from the bearing's maker; V is 1, or 1.2 by older books where
 * the outer ring turns. Radial and axial loads never add like arrows.
 */
export const equivalentLoad_N = (
  radial_N: number,
  axial_N = 0,
  { x = 1, y = 0, v = 1 }: { x?: number; y?: number; v?: number } = {},
): number => x * v * radial_N + y * axial_N;

/** Basic rating life that nine in ten reach, in millions of turns: (C / P)^p (ISO 281). */
export const life_Mrev = (rating_N: number, load_N: number, type: BearingType): number =>
  (rating_N / load_N) ** EXPONENT[type];

/** The same in hours at the speed of this very shaft. */
export const hours = (life_Mrev: number, shaft_radps: number): number =>
  (life_Mrev * MILLION * 2 * Math.PI) / shaft_radps / HOUR_s;

/** Turns, in millions, of so many hours at a shaft's speed. */
export const turns_Mrev = (hours: number, shaft_radps: number): number =>
  (hours * HOUR_s * shaft_radps) / (2 * Math.PI * MILLION);

/** The rating that a bearing must have to last so many million turns, N. */
export const ratingFor_N = (load_N: number, life_Mrev: number, type: BearingType): number =>
  load_N * life_Mrev ** (1 / EXPONENT[type]);

/** The steady load that wears a bearing as loads that change do, N: (Σ P^p n / Σ n)^(1/p), n being turns under each. */
export function meanLoad_N(loads: readonly { load_N: number; turns: number }[], type: BearingType): number {
  const p = EXPONENT[type];
  const turns = loads.reduce((sum, each) => sum + each.turns, 0);
  return (loads.reduce((sum, each) => sum + each.load_N ** p * each.turns, 0) / turns) ** (1 / p);
}
