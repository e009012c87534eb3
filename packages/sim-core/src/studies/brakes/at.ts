import { sound } from "../../record/sound.js";
import type { Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import { withFreeBearings } from "../safe.js";
import { waysOf } from "../ways.js";
import { brakesStep_s } from "./brakes.js";
import type { BrakesRow } from "./cases.js";
import { caseOf } from "./cases.js";
import { type Place, placesOf, speedOf_mps } from "./places.js";
import { BRAKE_SETS, isFitted, railsOf } from "./sets.js";

/**
 * Stops from one place, with every set of brakes fitted and on each rail: the rows that `brakes` has for it, out and back
 * on a line with ends. Quick enough to follow a hand on a slider.
 * @param chainage_m of the place; each way, the nearest that `brakes` has
 */
export function brakesAt(asked: Plan, chainage_m: number, step_s = brakesStep_s(asked)): BrakesRow[] {
  mustBeAsked({ chainage_m, step_s });
  const plan = withFreeBearings(asked);
  const speed_mps = speedOf_mps(plan);
  if (!(speed_mps > 0)) return [];
  const ways = waysOf(plan);
  const places = ways.map((way) => nearest(placesOf(plan, way), chainage_m));
  const ground = { plan, ways, places, speed_mps, sight_m: 0, step_s };
  return sound(
    BRAKE_SETS.filter((set) => isFitted(set, plan.train)).flatMap((set) =>
      railsOf(plan).flatMap((rail) => caseOf(ground, set, rail).rows),
    ),
  );
}

const nearest = (places: readonly Place[], chainage_m: number): Place =>
  places.reduce((a, b) => (Math.abs(b.chainage_m - chainage_m) < Math.abs(a.chainage_m - chainage_m) ? b : a));
