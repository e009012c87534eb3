import { root } from "../numeric/roots.js";
import { type HeatLoad, type MotorHeat, windingAfter_degC } from "./heat.nodes.js";

const LONGEST_s = 86400;

/** Time at a steady load until the winding is at the limit of its class; Infinity where a day does not warm it so far. */
export function secondsToLimit(
  heat: Omit<MotorHeat, "fan_radps">,
  load: HeatLoad,
  winding_degC: number,
  case_degC: number,
  air_degC: number,
): number {
  const left_K = (time_s: number) => {
    const left = heat.limit_degC - windingAfter_degC(heat, load, winding_degC, case_degC, air_degC, time_s);
    // Hotter than numbers go.
    return Number.isNaN(left) ? Number.NEGATIVE_INFINITY : left;
  };
  if (left_K(0) <= 0) return 0;
  return left_K(LONGEST_s) > 0 ? Number.POSITIVE_INFINITY : root(left_K, 0, LONGEST_s, 0.01);
}
