/** Standard acceleration of free fall, m/s² (BIPM, exact). */
export const G_mps2 = 9.80665;
/** Foot and statute mile (international yard and pound agreement of 1959, exact); miles and kilometres an hour, m/s. */
export const FOOT_m = 0.3048;
export const MILE_m = 1609.344;
export const MPH_mps = MILE_m / 3600;
export const KMH_mps = 1 / 3.6;
/** Air at 15 °C and sea level, kg/m³ (International Standard Atmosphere). */
export const AIR_kgpm3 = 1.225;
/** Copper's resistance grows by this share of its 20 °C value per kelvin (IEC 60228 and trade tables). */
export const COPPER_pK = 0.00393;
