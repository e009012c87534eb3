import type { Notes } from "../errors.js";
import { CHEMISTRY, HOUR_s, LEAD_ACID_PEUKERT } from "./battery.data.js";
import { inTheCold } from "./battery.each.js";

/** The rate that labels are given at. */
const LABEL_s = 20 * HOUR_s;

/**
 * The label's charge (at the 20-hour rate) that a battery needs to give a steady current for a time and still keep its
 * usual reserve, in air of a temperature.
 *
 * Lead-acid by Peukert's law turned round, C = I H (t/((1 - r) H))^(1/n) with n = 1.2: the reserve is a share r of what it
 * gives at this current. It also counts at least the charge drawn, as the state of charge does. Lithium iron phosphate
 * gives the same charge at any rate.
 */
export function labelFor_C(
  chemistry: keyof typeof CHEMISTRY,
  current_A: number,
  time_s: number,
  air_degC: number,
  notes: Notes,
): number {
  const toEmpty_s = time_s / (1 - CHEMISTRY[chemistry].reserve);
  const counted_C = current_A * toEmpty_s;
  const byPeukert_C = current_A * LABEL_s * (toEmpty_s / LABEL_s) ** (1 / LEAD_ACID_PEUKERT);
  const warm_C = chemistry === "lead-acid" ? Math.max(counted_C, byPeukert_C) : counted_C;
  return warm_C / inTheCold(chemistry, air_degC, notes).capacity;
}
