import { lackIn, type SWEPT_TROUBLES, type SweptLack } from "@rideon/sim-core";
import { listed } from "../../words/lists.js";
import type { SweptRow } from "./rows.js";

/** What a case falls short of, as it is said of it: a figure that does not hold. */
export const SHORT: Readonly<Record<string, string>> = {
  restarts: "does not start again on the steepest bit",
  stops_in_sight: "does not stop within sight",
  may_carry: "may carry nobody",
  charge_lasts: "has a charge that does not last",
  chosen_gears_will_do: "finds no sprockets that will do",
  own_gears_will_do: "has gears that will not do",
  grips_dry: "slips before it starts again, even on dry rail",
  sized_loco_runs: "does not run here when it is built to these figures",
  all_to_be_had: "wants a brake, breaker, cable or battery larger than there is",
  survey_good_enough: "stands on a survey that is not good enough to judge by",
  shafts_will_do: "has a shaft, or something on one, that will not do",
  parts_will_do: "has a part that will not do",
  wiring_will_do: "has something to put right between battery and motor",
};

/** The same of what is no figure: with its number where it has one. */
export const LACKS: Readonly<Record<SweptLack | (typeof SWEPT_TROUBLES)[number], (by: number) => string>> = {
  too_many_aboard: (by) => `has ${by} too many aboard`,
  beyond_seats: (by) => `has ${by} more aboard than seats`,
  begins_below_reserve: () => "begins below its reserve",
  goes_below_reserve: () => "goes below its reserve before it is done",
  winding_over_class: () => "has its winding over its class",
  restarts_not_even_empty: () => "does not restart even empty",
  no_brake: () => "has no brake to stop with",
  cannot_be_stopped: () => "cannot be stopped",
  rolls_back_braked: () => "rolls back with its brakes on",
  runs_away_unbraked: () => "runs away with no brake",
  stalled: () => "stalls",
  slipping: () => "stands with its wheels spinning",
  flat: () => "is flat before its time",
  overran: () => "runs past where it should stand",
  ran_away: () => "runs away backwards",
  tripped: () => "trips",
  burnt_out: () => "burns out its motor",
};

/** `has 12 too many aboard`. */
export function lackTold(text: string): string {
  const { lack, by } = lackIn(text);
  return SHORT[lack] ?? LACKS[lack as SweptLack]?.(by ?? 0) ?? lack;
}

/** A lack without its number: `has too many aboard`, whatever their number. */
export const lackKind = (text: string): string => lackIn(text).lack;

/** The same in words. */
export const kindTold = (kind: string): string =>
  kind === "too_many_aboard"
    ? "has too many aboard"
    : kind === "beyond_seats"
      ? "has more aboard than seats"
      : (SHORT[kind] ?? LACKS[kind as SweptLack]?.(0) ?? misses(kind));

/** All that a case falls short of, what is needed and missed as well. */
export const lacksOf = ({ short, missed }: Pick<SweptRow, "short" | "missed">): string[] => [
  ...short.map(lackTold),
  ...missed.map(misses),
];

export const misses = (need: string): string => `misses ${need}`;

export const shortTold = (row: Pick<SweptRow, "short" | "missed">): string => listed(lacksOf(row));
