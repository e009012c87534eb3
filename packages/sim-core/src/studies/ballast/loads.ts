import { transferred_N } from "../../parts/adhesion.js";
import { G_mps2 } from "../../parts/constants.js";
import type { RollingLoco } from "../../parts/files.keys.js";
import { wheelsKeys } from "../../parts/vehicle.keys.js";
import type { Train } from "../../train/train.js";
import type { EndLoads } from "./answer.js";

/** Where a loco's weight stands before ballast: the driven end has what the files give it, or the axles share it. */
export function frontShareOf({ wheels }: RollingLoco): { share: number; assumed: boolean } {
  const axles = wheels.axles ?? wheelsKeys.axles.default.value;
  if (wheels.driven_axles >= axles) return { share: 0.5, assumed: true };
  const driven = wheels.driven_share ?? wheels.driven_axles / axles;
  const end = wheels.driven_end ?? wheelsKeys.driven_end.default.value;
  return { share: end === "front" ? driven : 1 - driven, assumed: wheels.driven_share === undefined };
}

/** Loads of both ends: moments about the other one. @param toRear_N weight that pulling has moved from front to rear */
export const endLoads = (
  loco_kg: number,
  frontShare: number,
  ballast_kg = 0,
  onFront = 0.5,
  toRear_N = 0,
): EndLoads => {
  const moved_kg = toRear_N / G_mps2;
  return {
    front_kg: frontShare * loco_kg + onFront * ballast_kg - moved_kg,
    rear_kg: (1 - frontShare) * loco_kg + (1 - onFront) * ballast_kg + moved_kg,
  };
};

/**
 * Weight that leaves the leading end as the train starts on a gradient, by the statics of a two-axle vehicle (the same as a
 * run has it): the drawbar takes what the cars need to start, gravity pulls at the loco's own centre. Null without heights.
 */
export function movedStarting_N(loco: RollingLoco, train: Train, sine: number): number | null {
  const { coupling_height_m, gravity_height_m, wheelbase_m, bogie_centres_m } = loco.wheels;
  if (coupling_height_m === undefined || gravity_height_m === undefined) return null;
  const own = train.vehicles[train.loco];
  const cars_kg = train.mass_kg - own.mass_kg;
  const ownBreakaway_N = own.resistance.breakaway * own.mass_kg * G_mps2;
  const drawbar_N = train.breakaway_N - ownBreakaway_N + cars_kg * G_mps2 * sine;
  const base_m = bogie_centres_m ?? wheelbase_m ?? wheelsKeys.wheelbase.default.value * loco.gauge_m;
  const heights = { end: 0 as const, coupling_m: coupling_height_m, gravity_m: gravity_height_m, base_m };
  return transferred_N(heights, drawbar_N, own.mass_kg * G_mps2 * sine);
}

/**
 * Share on the front that ballast wants so that both ends carry alike as the train starts on the steepest, as near as a place
 * between the axles comes to it.
 */
export function levellingShare(loco_kg: number, frontShare: number, ballast_kg: number, toRear_N: number): number {
  if (ballast_kg <= 0) return 0.5;
  const wanted_kg = (loco_kg + ballast_kg) / 2 + toRear_N / G_mps2 - frontShare * loco_kg;
  return Math.min(1, Math.max(0, wanted_kg / ballast_kg));
}
