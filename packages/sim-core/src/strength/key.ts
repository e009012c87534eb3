/** A parallel key: whole height, half of it in the shaft; the length that bears. */
export interface Key {
  readonly width_m: number;
  readonly height_m: number;
  readonly length_m: number;
}

/** Stresses that a key may be worked at, Pa: in shear, and crushed against its seat. */
export interface KeyStresses {
  readonly shear_Pa: number;
  readonly crushing_Pa: number;
}

export interface Holds {
  readonly torque_Nm: number;
  readonly by: "shear" | "crushing";
}

/** Torque at which a key shears along its width: τ w l d / 2. */
const shearing_Nm = ({ width_m, length_m }: Key, diameter_m: number, shear_Pa: number): number =>
  (shear_Pa * width_m * length_m * diameter_m) / 2;

/** Torque at which it is crushed, on half its height: σ (h/2) l d / 2. */
const crushing_Nm = ({ height_m, length_m }: Key, diameter_m: number, crushing_Pa: number): number =>
  (crushing_Pa * height_m * length_m * diameter_m) / 4;

/** The torque that a key passes on, and what gives first. */
export function keyHolds(key: Key, diameter_m: number, { shear_Pa, crushing_Pa }: KeyStresses): Holds {
  const shear_Nm = shearing_Nm(key, diameter_m, shear_Pa);
  const crush_Nm = crushing_Nm(key, diameter_m, crushing_Pa);
  return shear_Nm <= crush_Nm ? { torque_Nm: shear_Nm, by: "shear" } : { torque_Nm: crush_Nm, by: "crushing" };
}

/** The length that a key of this section must have for a torque, m: by shear 2 T/(d w τ), crushed 4 T/(d h σ). */
export function keyLength_m(
  torque_Nm: number,
  section: Pick<Key, "width_m" | "height_m">,
  diameter_m: number,
  { shear_Pa, crushing_Pa }: KeyStresses,
): { byShear_m: number; byCrushing_m: number; length_m: number } {
  const byShear_m = (2 * torque_Nm) / (diameter_m * section.width_m * shear_Pa);
  const byCrushing_m = (4 * torque_Nm) / (diameter_m * section.height_m * crushing_Pa);
  return { byShear_m, byCrushing_m, length_m: Math.max(byShear_m, byCrushing_m) };
}

/** A factor of safety of the textbooks' worked keys (Sadhu Singh, Machine Design-I, ex. 7.8; Wentzell, Machine Design, ex. 15.1). */
export const KEY_SAFETY = 2.5;

/** Of a yield: half of it in shear, by the greatest-shear theory, and the whole in crushing, both over the safety factor. */
export const keyStresses = (yield_Pa: number, safety = KEY_SAFETY): KeyStresses => ({
  shear_Pa: yield_Pa / 2 / safety,
  crushing_Pa: yield_Pa / safety,
});

/**
 * Parallel keys by shaft: up to a diameter, width and height (ISO/R 773, DIN 6885-1, from memory). The first row of a
 * diameter is the key to fit.
 */
const SECTIONS_mm = [
  [8, 2, 2],
  [10, 3, 3],
  [12, 4, 4],
  [17, 5, 5],
  [22, 6, 6],
  [30, 8, 7],
  [38, 10, 8],
  [44, 12, 8],
  [50, 14, 9],
  [58, 16, 10],
  [65, 18, 11],
  [75, 20, 12],
  [85, 22, 14],
  [95, 25, 14],
  [110, 28, 16],
] as const;

/** The section that goes with a shaft; null beyond the table, and below 6 mm, where no key is cut. */
export function keySection(diameter_m: number): Pick<Key, "width_m" | "height_m"> | null {
  if (diameter_m <= 0.006) return null;
  const row = SECTIONS_mm.find(([upTo_mm]) => 1000 * diameter_m <= upTo_mm + 1e-9);
  return row ? { width_m: row[1] / 1000, height_m: row[2] / 1000 } : null;
}
