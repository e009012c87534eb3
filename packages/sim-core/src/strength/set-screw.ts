const INCH_m = 0.0254;
const POUND_N = 4.4482216152605;

/**
 * Axial hold of cup-point set screws on a steel shaft, tightened as the same table says: thread, inches, and hold, lbf
 * (ficientdesign.com, set screw torque chart). Its own torsional figures are for a shaft no thicker than the screw; on a
 * thicker one the same grip has a longer arm.
 */
const CUP_POINT = [
  [0.19, 200],
  [1 / 4, 400],
  [5 / 16, 700],
  [3 / 8, 1000],
  [1 / 2, 1500],
] as const;

/** Rounding of a thread that was typed in inches, m. */
const HAIR_m = 1e-9;

/** What a cup-point screw holds along the shaft, N: that of the thickest in the table no thicker than it; null below them all. */
export function screwHolds_N(thread_m: number): number | null {
  const row = CUP_POINT.findLast(([thread_in]) => thread_in * INCH_m <= thread_m + HAIR_m);
  return row ? row[1] * POUND_N : null;
}

/** The torque that it holds: its grip at the shaft's surface. */
export function screwHolds_Nm(thread_m: number, diameter_m: number): number | null {
  const hold_N = screwHolds_N(thread_m);
  return hold_N === null ? null : (hold_N * diameter_m) / 2;
}
