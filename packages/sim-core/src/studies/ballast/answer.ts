import type { EndedBy } from "../../event.js";
import type { LimitedBy } from "../../state.js";
import type { StopOutcome } from "../brakes/stop.js";
import type { Who } from "../limits/answer.js";

/** What stands on the front end of a loco and on its rear, driver aboard: axles, bogies, or halves of a row of axles. */
export interface EndLoads {
  front_kg: number;
  rear_kg: number;
}

/** Ballast in one place. */
export interface BallastPlace {
  /** Share of it that its place puts on the front end: 1 over the front axle, 0.5 midway, 0 over the rear. */
  front_share: number;
  /** Least that restarts the train, rounded up to whole kg; null where none does. */
  ballast_kg: number | null;
  /** What stands in the way where none does; null otherwise. */
  limited_by: LimitedBy | null;
  /** With that ballast (with none where none does), standing on the level. */
  standing: EndLoads;
  /** The same as it starts on the steepest, weight moved to the end behind; null where the loco's heights are not given. */
  starting: EndLoads | null;
}

/** What a working comes to, with ballast or without. */
export interface BallastCost {
  ballast_kg: number;
  loco_mass_kg: number;
  train_mass_kg: number;
  /** A day to the reserve, on the plan's own rail, bearings as stiff as they may be. */
  laps_to_reserve: number;
  /** Null where the reserve was reached. */
  ended_by: EndedBy | null;
  energy_per_lap_Wh: number | null;
  peak_winding_temperature_C: number;
  winding_limit_C: number;
  /** From the steepest fall at the plan's speed, on the worse rail, with the brakes that may be counted on. */
  stop_by: Who;
  stop_rail: string;
  /** Null where it moves nowhere. */
  stop_outcome: StopOutcome | null;
  stop_distance_m: number | null;
  /** Heaviest end of the loco, standing. */
  heaviest_end_kg: number;
}

/** The answer of `ballast`. */
export interface BallastAnswer {
  passengers: number;
  rail: string;
  /** The steepest, curves counted in, as the train feels it. */
  gradient_percent: number;
  gradient_at_m: number;
  /** What limits the restart without ballast. */
  limited_by: LimitedBy;
  /** Does it restart there as it is? */
  restarts_without: boolean;
  /** Which of the loco's ends leads up the steepest: weight leaves it as the train pulls. */
  leading_end: "front" | "rear";
  /** Is every axle driven and chained? Then the place of the ballast does not change the grip, and only the axles' loads. */
  all_driven: boolean;
  /** Is the share on the front end assumed to be a half? So it is where all axles are driven. */
  front_share_assumed: boolean;
  /** Places looked at, the one that wants the least ballast first. */
  places: BallastPlace[];
  without: BallastCost;
  /** With the first of the places; null where no ballast is wanted, or none helps. */
  with_ballast: BallastCost | null;
}
