import type { Outcome } from "../../event.js";
import { planKeys } from "../../parts/files.keys.js";
import { seatsIn } from "../../parts/vehicles.js";
import type { Plan } from "../../train/plan.js";
import type { StopRow } from "../limits/answer.js";
import type { PlanFiles } from "../limits/limits.js";

/**
 * What a case may fall short by beside a figure that does not hold, and beside what ended it before its time: each taken
 * from the answer of a question, or from the plan alone. Those of `COUNTED` have a number behind a colon.
 */
export const SWEPT_LACKS = [
  "too_many_aboard",
  "beyond_seats",
  "begins_below_reserve",
  "goes_below_reserve",
  "winding_over_class",
  "restarts_not_even_empty",
  "no_brake",
  "cannot_be_stopped",
  "rolls_back_braked",
  "runs_away_unbraked",
] as const;
export type SweptLack = (typeof SWEPT_LACKS)[number];

/** Outcomes that are lacks by themselves: all but the one that was wanted. */
export const SWEPT_TROUBLES = [
  "stalled",
  "slipping",
  "flat",
  "overran",
  "ran_away",
  "tripped",
  "burnt_out",
] as const satisfies readonly Exclude<Outcome, "completed">[];

/** `too_many_aboard:12`. */
export const counted = (lack: SweptLack, by: number): string => `${lack}:${by}`;

/** A lack and its number; null where it is of a kind that has none. */
export function lackIn(text: string): { lack: string; by: number | null } {
  const [lack = "", by] = text.split(":");
  return { lack, by: by === undefined ? null : Number(by) };
}

/** The most that are aboard at a time: those who set out, or those whom a stop leaves aboard. */
export const mostAboardOf = ({ passengers, stops }: PlanFiles["plan"]): number =>
  Math.max(passengers ?? planKeys.passengers.default.value, ...(stops ?? []).flatMap((stop) => stop.passengers ?? []));

/** More aboard than the cars have seats for, whatever is asked of them. */
export function beyondSeats({ plan }: PlanFiles): string[] {
  const beyond = mostAboardOf(plan) - seatsIn(plan.cars);
  return beyond > 0 ? [counted("beyond_seats", beyond)] : [];
}

/** A battery that is further down at the start than the reserve that is to be kept in it. */
export const belowReserve = ({ charge, train: { battery } }: Plan): string[] =>
  charge < battery.reserve ? ["begins_below_reserve"] : [];

/** A battery that begins above its reserve and is below it before what was asked of it is done. */
export const goesBelowReserve = ({ charge, train: { battery } }: Plan, goes: boolean): string[] =>
  goes && charge >= battery.reserve ? ["goes_below_reserve"] : [];

/** Why a train is not stopped within sight, where there is more to say than that; nothing where it is. */
export function stoppingLacks(braked: StopRow | undefined, bare: StopRow | undefined): string[] {
  if (braked?.outcome === "stops") return [];
  return [
    ...(!braked || braked.outcome === "no_brake" ? ["no_brake"] : []),
    ...(braked?.outcome === "runs_on" ? ["cannot_be_stopped"] : []),
    ...(braked?.outcome === "rolls_back" ? ["rolls_back_braked"] : []),
    // A brake that stops it is what it has for that.
    ...(bare?.outcome === "runs_on" ? ["runs_away_unbraked"] : []),
  ];
}

/** `runs away`: what becomes of a train that nobody brakes, where it runs on for no distance that could be told. */
export function unbraked(bare: StopRow | undefined): string | null {
  if (!bare || bare.outcome === "no_brake") return null;
  if (bare.outcome === "runs_on") return "runs away";
  if (bare.outcome === "rolls_back") return "rolls back";
  return bare.outcome === "stops" ? "stops" : "stops beyond sight";
}
