import type { EndedBy, Outcome } from "../../event.js";
import type { ParkingSet } from "../brakes/parking.js";
import type { StopOutcome } from "../brakes/stop.js";
import type { LapRow } from "../laps.js";
import type { LogSays } from "./by-log.js";

/** What bounds the number of people aboard. */
export type AboardLimit = "seats" | "restart" | "stopping" | "parking" | "working" | "charge" | "log" | "survey";

/** What would lift a limit; figures stand beside it in the row. */
export type LiftedBy =
  | "more_seats"
  | "a_car"
  | "grip"
  | "gearing_or_motor"
  | "battery_current"
  | "battery"
  | "lever"
  | "brake"
  | "brake_or_less_speed"
  | "parking_brake_or_chocks"
  | "breaker"
  | "cooling_or_gearing"
  | "less_load_or_speed"
  | "charge_or_battery"
  | "sums_that_agree"
  | "survey"
  | "survey_accepted"
  | "survey_closed";

/** One limit on the number aboard, without the driver. */
export interface AboardRow {
  limit: AboardLimit;
  /** Rail it is for; null where rail plays no part. */
  rail: string | null;
  /** Most with whom it holds; null where it does not hold with nobody aboard. */
  most: number | null;
  /** Was nothing more looked at, because a smaller limit stands anyway? */
  or_more: boolean;
  /** Does it count in the judgement? A rail that the plan does not name is told and left out, but for stopping. */
  counts: boolean;
  /** Where it bites: the head of the train, from the first post; null where it bites nowhere in particular. */
  at_m: number | null;
  lifted_by: LiftedBy;
  /** Force at the rail of a brake that would lift it, N; null where it is no matter of a brake, or none would do. */
  brake_N: number | null;
  /** Number aboard that this brake is for; null where there is none. */
  brake_with: number | null;
}

/** The greatest speed on a stretch, from place to place, one way. */
export interface SpeedRow {
  direction: "out" | "back";
  from_m: number;
  to_m: number;
  /** 0 where it stops within sight from no speed at all, or has no brake to count on. */
  speed_mps: number;
  /** What holds it: the plan's own speed, a limit of the line, stopping within sight, or the want of a brake. */
  by: "plan" | "line" | "sight" | "no_brake";
  /** Where in the stretch. */
  at_m: number;
}

/** Who puts brakes on. The guard hears of it first; a dead-man's switch needs nobody's wits. */
export type Who = "nobody" | "driver" | "guard" | "dead_man" | "everybody";

/** The longest stop, by who acts. */
export interface StopRow {
  who: Who;
  rail: string;
  outcome: StopOutcome | "beyond_sight" | "no_brake";
  distance_m: number | null;
  /** Where the driver should act; null where there is no such brake. */
  from_m: number | null;
  direction: "out" | "back" | null;
  speed_mps: number | null;
  /** Reached on the way, m/s. */
  top_speed_mps: number | null;
  /** From which it stops within sight from everywhere; null where it does from none. */
  greatest_speed_mps: number | null;
}

/** What the part left behind does when a coupling parts. */
export interface PartedRow {
  /** Between which vehicles, counted from the loco: 1 is the first coupling. */
  coupling: number;
  /** Names of those left behind, in order. */
  left: string[];
  /** With nothing on, or with every brake of its own on. */
  brakes: "none" | "own";
  outcome: "stays" | "rolls_to_rest" | "leaves_the_line" | "goes_round";
  /** Where it parts so as to get fastest: the head of the part left; null where it stays everywhere. */
  from_m: number | null;
  direction: "out" | "back" | null;
  top_speed_mps: number;
  /** From where it parted to where it came to rest, along the rail. */
  rolls_m: number | null;
}

/** Where it may be left standing. */
export interface Standing {
  brakes: ParkingSet;
  rail: string;
  holding_gradient_percent: number;
  /** Stretches where its brakes do not hold it by these sums, by the head: chocks. */
  chocks: { from_m: number; to_m: number }[];
}

/** What this train may do on this line, by these sums. */
export interface LimitsAnswer {
  may_carry: boolean;
  most_aboard: number;
  /** The least limit, and its rail. */
  most_aboard_by: AboardLimit;
  most_aboard_rail: string | null;
  /** What a logged run says of the sums, where one was given. */
  logged?: LogSays;
  seats: number;
  passengers: number;
  /** Number aboard that all below but `aboard` is told for: most aboard, or the plan's own where that is more. */
  loaded: number;
  sight_m: number;
  aboard: AboardRow[];
  /** On the worse rail. */
  speeds: SpeedRow[];
  stops: StopRow[];
  parted: PartedRow[];
  standing: Standing;
  /** With half, or whatever reserve the files have, left in the battery; a whole number. */
  laps_to_plan_for: number;
  /** Does the charge last for the laps or the hours that the plan asks, the reserve kept? False where anything else ends the day. */
  charge_lasts: boolean;
  /** What ended that day before the reserve was reached, were it only the plan's hours; null where the reserve did. */
  day_ended_by: EndedBy | null;
  /** What it came to: `completed`, or what kept it from the reserve and from the plan's hours. */
  day_outcome: Outcome;
  day_ended_at_m: number | null;
  /** That day, by those of its laps that were run. */
  day: LapRow[];
  /** What the sums count on. */
  counted: Counted;
}

/** What is counted on the safe side: little when stopping, much when pulling. */
export interface Counted {
  rolling_stopping: number;
  rolling_pulling: number;
  /** Is it a logged run that leaves rolling as free as stops and standing count it, and not the files? */
  rolling_by_log: boolean;
  /** False where a logged run was given that should say how freely the train rolls, and does not. */
  rolling_told: boolean;
  /** Is it a logged run that leaves rolling as stiff as starting again counts it, and not the files? */
  pulling_by_log: boolean;
  /** False where a logged run was given that should say how stiffly the train rolls, and does not. */
  pulling_told: boolean;
  drag_of_motor: boolean;
  reaction_time_s: number;
  guard_after_s: number;
  rail_stopping: string;
}
