import { chargeDataOf } from "./battery.charge.data.js";
import type { Chemistry } from "./battery.data.js";

/** Faraday's constant, C/mol, and the gas constant, J/(mol K): exact since 2019 (SI). */
const FARADAY_Cpmol = 96485.33212;
const GAS_JpmolK = 8.314462618;
const PRESSURE_Pa = 101325;
const ZERO_K = 273.15;

/** Hydrogen that an ampere-hour of overcharge frees in one cell: two electrons a molecule, as an ideal gas. */
export const hydrogen_m3pC = (gas_degC: number): number =>
  (GAS_JpmolK * (gas_degC + ZERO_K)) / PRESSURE_Pa / (2 * FARADAY_Cpmol);

/**
 * Gassing current at the end of a charge, A for each 100 Ah: EN 62485-3 (before it EN 50272-3), as set out by Exide for
 * traction batteries. First of chargers that hold a limit of volts (IU), which is 2.4 V a cell; then of those that go beyond
 * it in the end (IUI; without any limit it is 5 to 7 of wet cells).
 */
export const GASSING_Ap100Ah = {
  limited: { vented: 2, sealed: 1 },
  beyond: { vented: 6, sealed: 1.5 },
} as const;

const LIMIT_V = 2.4;
/** 28.8 V over twelve cells are not more than 2.4 V. */
const ROUNDING_V = 0.005;

/** By the volts of a cell that the charger goes up to. */
export const gassing_Ap100Ah = (cell_V: number): { readonly vented: number; readonly sealed: number } =>
  cell_V > LIMIT_V + ROUNDING_V ? GASSING_Ap100Ah.beyond : GASSING_Ap100Ah.limited;

/**
 * Air that keeps the hydrogen below 4 % with a fivefold safety, m³/h: 24 × 0.42e-3 × 5 × n × I C/100, which that standard
 * rounds to 0.05 n I C/100.
 * @param cells in series, of one string; the capacity is that of all strings
 */
export const airWanted_m3ph = (cells: number, gassing_Ap100Ah: number, capacity_Ah: number): number =>
  (0.05 * cells * gassing_Ap100Ah * capacity_Ah) / 100;

/** Openings below and above, each, where air moves by itself at 0.1 m/s, cm²; and the free volume of a room that needs none, m³. */
export const openings_cm2 = (air_m3ph: number): number => 28 * air_m3ph;
export const freeVolume_m3 = (air_m3ph: number): number => 2.5 * air_m3ph;

/** Litres of hydrogen from a charge: what was given beyond what was taken frees it in every cell, warm as a label is read. */
export function hydrogen_l(chemistry: Chemistry, cells: number, given_C: number): number {
  const { factor } = chargeDataOf(chemistry);
  return 1000 * cells * hydrogen_m3pC(25) * given_C * (1 - 1 / factor);
}
