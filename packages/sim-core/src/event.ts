import type { LimitedBy } from "./state.js";

/** Why a train stands with the lever open, and how long it may. */
export interface Stall {
  limited_by: LimitedBy;
  /** Do the wheels spin? */
  spinning: boolean;
  /** Pull at the driven rims. */
  pull_N: number;
  /** What it would take to start: gravity, wind, and what holds a standing train. */
  needed_N: number;
  grip_N: number;
  motor_current_A: number;
  battery_current_A: number;
  /** Until breaker or fuse trips with the lever held; null where it holds. */
  trip_s: number | null;
  /** Until the winding is at the limit of its class; null where it settles below. */
  too_hot_s: number | null;
  /** Would this current never settle, however cool the motor begins: does hotter copper make more heat than it sheds? */
  thermal_runaway: boolean;
}

/** What ended a working: a word of its own for each way. */
export type Ending =
  | { kind: "completed"; by: "laps"; laps_done: number }
  /** The plan's duration, or the longest day there is. */
  | { kind: "completed"; by: "duration" | "one_day" }
  | ({ kind: "stalled"; by: "stalled"; rolled_back: boolean } & Stall)
  | ({ kind: "slipping"; by: "slipping" } & Stall)
  | { kind: "flat"; by: "empty" }
  /** The controller's cut-out: so long below so many volts. */
  | { kind: "flat"; by: "undervoltage"; cutout_voltage_V: number; cutout_delay_s: number }
  | { kind: "flat"; by: "battery_protection"; low_voltage_V: number }
  /** Past where it should stand; did the driver shut off for it? */
  | { kind: "overran"; by: "overran"; place: string | null; speed_mps: number; shut_off: boolean }
  /** Backwards, so fast. */
  | { kind: "ran_away"; by: "ran_away"; speed_mps: number }
  | {
      kind: "tripped";
      by: "breaker";
      device: "none" | "breaker" | "fuse";
      rating_A: number;
      element: "thermal" | "magnetic";
      battery_current_A: number;
    }
  | { kind: "tripped"; by: "battery_protection"; limit_A: number }
  | { kind: "burnt_out"; by: "burnt_out"; winding_temperature_C: number };

/** How a working ended, in one word. */
export type Outcome = Ending["kind"];

/** What ended it. */
export type EndedBy = Ending["by"];

/** How a day ends that ends as it was meant to. */
const AS_MEANT: readonly EndedBy[] = ["laps", "duration", "one_day"];

export const isTrouble = (by: EndedBy): boolean => !AS_MEANT.includes(by);

/** What can happen on the way. A place is null at the end of a line. */
export type Happening =
  | Ending
  /** With no current in the motor it starts to roll by itself. */
  | { kind: "starts"; motor_current_A: number }
  | { kind: "at_rest" }
  | { kind: "rolls_back"; gravity_N: number }
  | { kind: "slips"; asked_N: number; grip_N: number }
  | { kind: "grips" }
  | { kind: "axles_lock"; vehicle: string }
  | { kind: "axles_turn"; vehicle: string }
  /** So much later without a brake, and it runs past the end of the line; null where that is not the question. */
  | { kind: "shuts_off"; speed_mps: number; leeway_m: number | null }
  /** Only from within so far of the place, on a road that falls too steeply before it; null where from nowhere at all. */
  | { kind: "cannot_stop"; place: string | null; within_m: number | null }
  | { kind: "draws_up"; short_m: number }
  | { kind: "stop"; place: string | null }
  | { kind: "boarding"; passengers: number }
  | { kind: "turns" }
  /** Energy is what the battery has given since the start. */
  | { kind: "lap"; laps_done: number; energy_Wh: number }
  | { kind: "too_hot"; limit_temperature_C: number }
  | { kind: "too_fast"; speed_mps: number; wanted_speed_mps: number }
  /** For the first time a switch of the battery's main circuit carries more than it can break. */
  | { kind: "beyond_switch"; switch: "isolator" | "dead_man"; battery_current_A: number; breaks_A: number }
  | { kind: "battery_full" };

/** Something that happened, when and where: numbers alone, for whoever tells of it to put into words. */
export type Event = { time_s: number; lap: number; chainage_m: number } & Happening;

/** What ended a working of these events; null where nothing has yet. */
export const endedBy = (events: readonly Event[]): EndedBy | null =>
  events.findLast((event) => "by" in event)?.by ?? null;

/** What a working of these events came to, in one word; null where nothing has ended it yet. */
export const outcomeOf = (events: readonly Event[]): Outcome | null =>
  events.findLast((event) => "by" in event)?.kind ?? null;
