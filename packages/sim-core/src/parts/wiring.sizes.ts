import { carries_A } from "./wiring.js";

/** Nominal areas of IEC 60228 for which a current is known here, mm². */
export const AREAS_mm2 = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70] as const;

/** The smallest standard cable that carries a current steadily; null where none here does. */
export const smallestCable_mm2 = (current_A: number): number | null =>
  AREAS_mm2.find((area_mm2) => carries_A(area_mm2) >= current_A) ?? null;

/** Usual limit of the volts lost in a power cable, as a share of the supply: common practice, no source. */
export const MOST_DROP = 0.03;
