import { type CauseName, figures, formatPercent, type RankedCause } from "@rideon/sim-core";
import type { Opened } from "../../../words/ready.js";
import { ratioWords, teethFor } from "../sheet/gearing.js";
import { about, aboutSize, range } from "./sizes.js";

/** A cause with its size: as ranked, or as the fault table has it (then without a range). */
export type Sized = Pick<RankedCause, "cause" | "where" | "size" | "size_unit"> &
  Partial<Pick<RankedCause, "size_low" | "size_high">>;

/** `a brake drags on the loco, about 70 N (55 to 90 N)`. */
export function causeWords(cause: Sized, { plan, reading: { loco }, eyes }: Opened): string {
  const { where, size, size_unit, size_low, size_high } = cause;
  const { train } = plan;
  const known = size === null ? "" : aboutSize(size, size_low, size_high, size_unit, eyes);
  const inSeries = loco.battery.in_series ?? 1;
  const at = where === "" ? "" : ` ${where}`;
  switch (cause.cause) {
    case "nothing_wrong":
      return "nothing is wrong: it reads as a sound loco does";
    case "none_of_these":
      return "none of these: what was read fits no single fault known here";
    case "held_wheel":
      return where === ""
        ? "something is held fast: chocks, a brake left on, something under a wheel or in a chain"
        : heldWords(where);
    case "dragging_brake_or_tight_chain":
      return where === ""
        ? `something drags, ${known}: a brake, a bearing or a chain that is too tight`
        : `${where} drags, ${known} at the rail`;
    case "flat_battery":
      return `the battery is flat: ${known} of its charge is left`;
    case "old_battery":
      return `the battery is worn out: its resistance is ${known}, by the files ${eyes.of(train.battery.resistance_ohm, "resistance")}`;
    case "bad_battery":
      return `${where || (inSeries > 1 ? "one of the batteries" : "the battery")} is bad: ${known} short`;
    case "bad_joint":
      return `a bad joint${at}: ${known}`;
    case "open_circuit":
      return `the circuit is open${at}${where === "" ? ": a switch open, a wire off, a fuse or breaker gone" : ""}`;
    case "current_limit_low":
      return `the controller's current limit is set low: ${known}, by the files ${eyes.of(train.controller.motorLimit_A, "current")}`;
    case "cutout_set_wrong":
      return `the controller's undervoltage cut-out is set too high${where && `: ${where}`}`;
    case "wrong_sprocket_or_wheel":
      return size === null || where === "" ? "a wrong sprocket or wheel" : wrongSize(cause, size, plan.train);
    case "wrong_battery_voltage":
      return `the battery has the wrong volts: ${stringWords(size ?? 1, inSeries)}`;
    case "weak_magnets":
      return `the motor's magnets are weak: ${size === null ? "" : percentOf(cause, size)} of what the files give them`;
    case "slipping_sprocket":
      return `a sprocket slips on its shaft, or a chain jumps: nothing is passed on above ${known} at the rail`;
    case "poor_grip":
      return `the rail grips badly: ${grip(cause, size ?? 1, train.adhesion.static)}, by the plan ${figures(train.adhesion.static)}`;
    case "reversed_lead":
      return "two leads are crossed: it goes backwards when it is told to go forwards";
    case "heavier_train":
      return `the train is heavier than the files have it, by ${known}`;
    case "head_wind":
      return `nothing is wrong with the loco: a wind blows against it, ${known}`;
    case "steeper_place":
      return `${where || "the line"} is steeper than the track's file has it, by ${known}`;
  }
}

/** Of a cause's ways one is named where it has this share of what speaks for the cause. */
const NAMED = 0.8;

export const isNamed = ({ probability, ways: [first] }: RankedCause): boolean =>
  first === undefined || first.probability >= NAMED * probability;

/** A cause whose way is not known yet, without one. */
export const asFarAsKnown = (cause: RankedCause): RankedCause => (isNamed(cause) ? cause : { ...cause, where: "" });

/** What the fault is called where its size does not matter. */
export const CALLED: Readonly<Record<CauseName, string>> = {
  nothing_wrong: "a sound loco",
  held_wheel: "something held fast",
  head_wind: "a strong wind against it",
  dragging_brake_or_tight_chain: "a dragging brake or tight chain",
  flat_battery: "a flat battery",
  old_battery: "a worn battery",
  bad_battery: "one bad battery",
  bad_joint: "a bad joint",
  open_circuit: "an open circuit",
  current_limit_low: "a low current limit",
  cutout_set_wrong: "a cut-out set too high",
  wrong_sprocket_or_wheel: "a wrong sprocket or wheel",
  wrong_battery_voltage: "a battery of the wrong volts",
  weak_magnets: "weak magnets",
  slipping_sprocket: "a slipping sprocket",
  poor_grip: "poor grip",
  reversed_lead: "crossed leads",
  heavier_train: "a heavier train",
  steeper_place: "a steeper place",
  none_of_these: "something else",
};

/** The wheels may be jammed by whatever is in a chain; the other ways say themselves what holds the train. */
const heldWords = (where: string): string =>
  where.startsWith("the driven")
    ? `${where}: something in a chain, or a bearing gone`
    : `the train is held fast: ${where}`;

function wrongSize({ where, size_low, size_high }: Sized, size: number, train: Opened["plan"]["train"]): string {
  if (where.endsWith("wheels")) {
    const across_mm = (by: number) => `${Math.round(2000 * by * train.radius_m)} mm`;
    return `${where} than the files have: about ${across_mm(size)} across the tread${range(size_low, size_high, across_mm)}, by the files ${across_mm(1)}`;
  }
  const teeth = teethFor(size, train);
  return `${where}: about ${ratioWords(size, train)}${teeth ? `, such as ${teeth}` : ""}`;
}

function percentOf({ size_low, size_high }: Sized, size: number): string {
  return about(size, size_low, size_high, (value) => formatPercent(Math.round(100 * value) / 100));
}

function grip({ size_low, size_high }: Sized, size: number, usual: number): string {
  return about(size, size_low, size_high, (by) => (by * usual).toFixed(2));
}

/** Of a string of batteries, how many there are; of one alone, its volts. */
const stringWords = (by: number, inSeries: number): string =>
  inSeries > 1
    ? `${Math.round(by * inSeries)} in series in place of ${inSeries}`
    : `about ${figures(by)} times what the files have`;
