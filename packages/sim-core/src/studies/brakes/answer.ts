import type { BrakesRow } from "./cases.js";
import type { DecelerationLimit } from "./limits.js";
import type { Parking } from "./parking.js";
import type { BrakeSet } from "./sets.js";
import type { BrakeWanted } from "./sight.js";

/** The hardest stop of a set on a rail. */
export interface WorstStop extends BrakesRow {
  /**
   * The same stop with the motor's drag left out, null where it then does not stop. Of the sets that have a brake, and
   * count on the drag besides since it was measured.
   */
  distance_without_drag_m?: number | null;
}

/** Where a set of brakes does not stop it within sight. */
export interface BeyondSight {
  brakes: BrakeSet;
  rail: string;
  places: Pick<BrakesRow, "chainage_m" | "direction" | "distance_m">[];
}

/** From which it stops within sight from everywhere; null where it does from no speed. */
export interface GreatestSpeed {
  brakes: BrakeSet;
  rail: string;
  speed_mps: number | null;
}

/**
 * What whoever reads the answer should know of it: that the battery was too full for the motor to go on braking; that a
 * guard is taken to act `GUARD_AFTER_s` after the driver; that places within sight of an end of the line were left out of what is judged.
 */
export type BrakesRemark = "battery_full" | "guard_acts_later" | "ends_of_the_line_left_out";

/** The answer of `brakes`. */
export interface BrakesAnswer {
  sight_m: number;
  reaction_time_s: number;
  step_s: number;
  /** Grip of each rail, by its name in the rows. */
  rails: { rail: string; grip: number }[];
  rows: BrakesRow[];
  /** The longest stop of each set on each rail, or one that does not stop. */
  worst: WorstStop[];
  not_fitted: BrakeSet[];
  beyond_sight: BeyondSight[];
  greatest_speed: GreatestSpeed[];
  deceleration_limits: DecelerationLimit[];
  /** The brake it wants where no service brake is fitted; null where one is, or where none would do. */
  brake_wanted: BrakeWanted | null;
  /** One for each set, on the worse rail. */
  parking: Parking[];
  remarks: BrakesRemark[];
}
