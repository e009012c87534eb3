import {
  type BrakesAnswer,
  type BrakesRow,
  brakesAt,
  type ClimbAnswer,
  type EffortAnswer,
  type GearsAnswer,
  type LapsAnswer,
  type Plan,
  type RunAnswer,
  runOnce,
  tractiveEffort,
} from "@rideon/sim-core";
import { type Picture, pictureTaker } from "../../charts/picture.js";
import { type Files, loadTable, onOtherRail, planOf } from "../../work/files.js";
import { type Steady, steadyOn } from "./steady.js";

/** One lap, and the stops from one place: worked out while the reader's hand is on a control. */
export interface Lap {
  run: RunAnswer;
  picture: Picture;
  /** From the place chosen. */
  stops: readonly BrakesRow[];
}

/** What takes longer. */
export interface Day {
  laps: LapsAnswer;
  brakes: BrakesAnswer;
  /** The load table on the plan's rail, and on another. */
  load: ClimbAnswer;
  other: ClimbAnswer;
  effort: EffortAnswer;
  /** With the battery down to its reserve; null where the plan starts no fuller. */
  low: EffortAnswer | null;
  level: Steady | null;
  bank: Steady | null;
}

export interface Facts extends Lap, Day {
  files: Files;
  plan: Plan;
  gears: GearsAnswer | null;
}

/** As `run` has it unless told. */
const EVERY_s = 0.5;

export function lapOf(plan: Plan, chainage_m: number): Lap {
  const taker = pictureTaker();
  const run = runOnce(plan, { every_s: EVERY_s, onRow: taker.row });
  return { run, picture: taker.taken(), stops: brakesAt(plan, chainage_m) };
}

/** All of a day but the two that are worked out elsewhere at the same time. */
export function restOfDay(files: Files): Omit<Day, "laps" | "brakes"> {
  const plan = planOf(files);
  const load = loadTable(files);
  const ruling = load.ruling_gradient_compensated_percent / 100;
  const { reserve } = plan.train.battery;
  return {
    load,
    other: loadTable(onOtherRail(files)),
    effort: tractiveEffort(plan, ruling),
    low: plan.charge > reserve && reserve > 0 ? tractiveEffort({ ...plan, charge: reserve }, ruling) : null,
    level: steadyOn(files, 0),
    bank: ruling > 0 ? steadyOn(files, ruling) : null,
  };
}
