/** Standard acceleration of free fall, m/s² (BIPM, exact). */
export const G_mps2 = 9.80665;
/** Air at 15 °C and sea level, kg/m³ (International Standard Atmosphere). */
export const AIR_kgpm3 = 1.225;
/** Copper's resistance grows by this share of its 20 °C value per kelvin (IEC 60228 and trade tables). */
export const COPPER_pK = 0.00393;
