import { DRIVER_s } from "./lever.js";
import { rimRate_ps } from "./stepper.js";
import type { Working } from "./working.js";

/** The usual step, s. */
const USUAL_s = 0.05;
/** A step is at most this share of the shortest time constant, well inside what Runge-Kutta can follow. */
const SHARE = 0.5;

/** No step is chosen shorter than this, s: nothing on a railway is quicker, and a shorter one would take for ever. */
const SHORTEST_s = 0.001;

/** The shortest time constant of the train while its wheels grip, s. */
export function shortestTime_s(w: Working): number {
  const { battery, heat } = w.train;
  return Math.min(
    1 / rimRate_ps(w, w.train.translating_kg),
    battery.polarisation_ohm > 0 ? battery.polarisation_s : Number.POSITIVE_INFINITY,
    battery.exponentRate_ps > 0 ? 1 / battery.exponentRate_ps : Number.POSITIVE_INFINITY,
    heat.winding_JpK * heat.windingToCase_KpW,
    (heat.case_JpK * heat.windingToCase_KpW * heat.caseToAir_KpW) / (heat.windingToCase_KpW + heat.caseToAir_KpW),
  );
}

/** The usual step, or the whole part of the driver's tenth of a second that follows the train's shortest time constant. */
export const chooseStep_s = (w: Working): number =>
  DRIVER_s / Math.ceil(DRIVER_s / Math.min(USUAL_s, Math.max(SHORTEST_s, SHARE * shortestTime_s(w))));
