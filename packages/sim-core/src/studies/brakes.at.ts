import type { Plan } from "../plan.js";
import type { BrakesRow } from "./brakes.answer.js";
import { caseOf } from "./brakes.cases.js";
import { brakesStep_s } from "./brakes.js";
import { placesOf, speedOf_mps } from "./brakes.places.js";
import { BRAKE_SETS, isFitted, railsOf } from "./brakes.sets.js";
import { waysOf } from "./ways.js";

/**
 * Stops from one place, with every set of brakes fitted and on each rail: the rows that `brakes` has for it. Quick enough
 * to follow a hand on a slider.
 * @param chainage_m of the place, or near it: the nearest that `brakes` has
 */
export function brakesAt(plan: Plan, chainage_m: number, step_s = brakesStep_s(plan)): BrakesRow[] {
  const speed_mps = speedOf_mps(plan);
  if (!(speed_mps > 0)) return [];
  const ways = waysOf(plan);
  const all = ways.flatMap((way) => placesOf(plan, way));
  const off_m = all.map((place) => Math.abs(place.chainage_m - chainage_m));
  const nearest_m = Math.min(...off_m);
  const places = all.filter((_, i) => off_m[i] === nearest_m);
  const ground = { plan, ways, places, speed_mps, sight_m: 0, step_s };
  return BRAKE_SETS.filter((set) => isFitted(set, plan.train)).flatMap((set) =>
    railsOf(plan).flatMap((rail) => caseOf(ground, set, rail).rows),
  );
}
