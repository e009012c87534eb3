import type { Strength } from "./steel.js";

/** Combined shock and fatigue factors of ASME's code for transmission shafting: Kb on bending, Kt on torsion. */
export interface Shock {
  readonly bending: number;
  readonly torsion: number;
}
export const NO_SHOCK: Shock = { bending: 1, torsion: 1 };

/** What a solid round shaft is loaded with where it is worst. */
export interface ShaftLoad {
  readonly torque_Nm: number;
  readonly bending_Nm: number;
}

/** Stresses that a shaft may be worked at, Pa. */
export interface Allowable {
  readonly shear_Pa: number;
  readonly normal_Pa: number;
}

/**
 * Shares of yield and of tensile strength that ASME's code allows, whichever is less, and what a keyway leaves of it. Those
 * in shear as textbooks print them (Sadhu Singh, Machine Design-I, ex. 6.1); in bending twice that, from memory.
 */
const SHEAR = { ofYield: 0.3, ofUltimate: 0.18 } as const;
const NORMAL = { ofYield: 0.6, ofUltimate: 0.36 } as const;
export const KEYWAY_LEAVES = 0.75;

export function allowableOf({ yield_Pa, ultimate_Pa }: Strength, keyway: boolean): Allowable {
  const left = keyway ? KEYWAY_LEAVES : 1;
  const least = (of: typeof SHEAR | typeof NORMAL) =>
    left * Math.min(of.ofYield * yield_Pa, of.ofUltimate * ultimate_Pa);
  return { shear_Pa: least(SHEAR), normal_Pa: least(NORMAL) };
}

/** The torque that alone would make the same greatest shear: Te = √((Kb M)² + (Kt T)²). */
export const equivalentTorque_Nm = ({ torque_Nm, bending_Nm }: ShaftLoad, { bending, torsion }: Shock): number =>
  Math.hypot(bending * bending_Nm, torsion * torque_Nm);

/** The bending moment that alone would make the same greatest normal stress: Me = (Kb M + Te) / 2. */
export const equivalentBending_Nm = (load: ShaftLoad, shock: Shock): number =>
  (shock.bending * load.bending_Nm + equivalentTorque_Nm(load, shock)) / 2;

/** Shear at the surface from a torque, Pa: 16 T / (π d³). */
export const torsion_Pa = (torque_Nm: number, diameter_m: number): number =>
  (16 * torque_Nm) / (Math.PI * diameter_m ** 3);

/** Bending stress at the surface, Pa: 32 M / (π d³). */
export const bending_Pa = (moment_Nm: number, diameter_m: number): number =>
  (32 * moment_Nm) / (Math.PI * diameter_m ** 3);

/** Greatest shear where bending and torsion meet, Pa: √((σ/2)² + τ²). */
export const greatestShear_Pa = (normal_Pa: number, shear_Pa: number): number => Math.hypot(normal_Pa / 2, shear_Pa);

/** Greatest normal stress there, Pa: σ/2 + √((σ/2)² + τ²). */
export const greatestNormal_Pa = (normal_Pa: number, shear_Pa: number): number =>
  normal_Pa / 2 + greatestShear_Pa(normal_Pa, shear_Pa);

/** The least diameter by either theory, and the one that asks for more: what the shaft must have. */
export interface LeastDiameter {
  readonly byShear_m: number;
  readonly byNormal_m: number;
  readonly diameter_m: number;
  readonly by: "shear" | "normal";
}

/**
 * A solid round shaft by ASME's code: d³ = 16 Te / (π τ) by the greatest shear, d³ = 32 Me / (π σ) by the greatest normal
 * stress. Where σ is allowed twice τ, shear asks for more.
 */
export function leastDiameter(load: ShaftLoad, { shear_Pa, normal_Pa }: Allowable, shock: Shock): LeastDiameter {
  const byShear_m = Math.cbrt((16 * equivalentTorque_Nm(load, shock)) / (Math.PI * shear_Pa));
  const byNormal_m = Math.cbrt((32 * equivalentBending_Nm(load, shock)) / (Math.PI * normal_Pa));
  const by = byNormal_m > byShear_m ? "normal" : "shear";
  return { byShear_m, byNormal_m, diameter_m: Math.max(byShear_m, byNormal_m), by };
}
