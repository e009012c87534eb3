import { MAGNETIC_s } from "../../parts/breaker.ratings.js";
import { cable_ohm, shortCircuit_A, withstand_A2s } from "../../parts/wiring.js";
import { AREAS_mm2 } from "../../parts/wiring.sizes.js";
import type { ProtectionAnswer } from "./answer.js";

/**
 * The least cable for a breaker: from one that carries its rating up, the first that stands a short circuit until a breaker
 * trips at once. Null where none listed does.
 */
export function guardedCable_mm2(
  least_mm2: number | null,
  { battery_cable, short_circuit }: Pick<ProtectionAnswer, "battery_cable" | "short_circuit">,
): number | null {
  if (least_mm2 === null) return null;
  const ohmPerLength = (area_mm2: number) => cable_ohm(1, area_mm2, 20);
  const stands = (area_mm2: number) => {
    const ohm = (battery_cable.resistance_ohm * ohmPerLength(area_mm2)) / ohmPerLength(battery_cable.area_mm2);
    const current_A = shortCircuit_A(short_circuit.emf_V, short_circuit.battery_resistance_ohm + ohm);
    return withstand_A2s(area_mm2) / current_A ** 2 >= MAGNETIC_s;
  };
  return AREAS_mm2.find((area_mm2) => area_mm2 >= least_mm2 && stands(area_mm2)) ?? null;
}
