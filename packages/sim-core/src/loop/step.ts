import { DRIVER_s } from "../driver/lever.js";
import type { Working } from "../working.js";
import { rimRate_ps } from "./slipping.js";

/** The longest step, from look to look of a driver who rolls along, s. */
export const LONGEST_s = 0.5;
/** A step is at most this share of the shortest time constant: each then loses some 2e-5 of what it carries, h⁵/120. */
const SHARE = 0.3;

/** No step is chosen shorter than this, s: no train is quicker, and a shorter one would take for ever. */
const SHORTEST_s = 0.002;

/** The shortest time constant of the train while its wheels grip, s. */
export function shortestTime_s(w: Working): number {
  const { train } = w;
  const { battery, heat } = train;
  return Math.min(
    1 /
      (rimRate_ps(train, train.translating_kg) +
        (train.rolling_Nspm + (train.law?.steepest_Nspm ?? 0)) / train.effective_kg),
    battery.polarisation_ohm > 0 ? battery.polarisation_s : Number.POSITIVE_INFINITY,
    battery.exponentRate_ps > 0 ? 1 / battery.exponentRate_ps : Number.POSITIVE_INFINITY,
    heat.winding_JpK * heat.windingToCase_KpW,
    (heat.case_JpK * heat.windingToCase_KpW * heat.caseToAir_KpW) / (heat.windingToCase_KpW + heat.caseToAir_KpW),
  );
}

/**
 * The longest step that follows the train's shortest time constant, s: a whole part of the half second that a driver rolls
 * along between looks, or of the tenth where it is shorter than that. What happens makes the steps shorter still.
 */
export function chooseStep_s(w: Working, longest_s = LONGEST_s): number {
  const most_s = Math.min(longest_s, Math.max(SHORTEST_s, SHARE * shortestTime_s(w)));
  const look_s = most_s >= DRIVER_s ? LONGEST_s : DRIVER_s;
  return look_s / Math.ceil(look_s / most_s);
}
