import {
  type BrakesAnswer,
  type BrakesRow,
  brakesAt,
  type ClimbAnswer,
  climb,
  createPlan,
  type EffortAnswer,
  type GearsAnswer,
  type LapsAnswer,
  type LocoDefinition,
  type MotorTables,
  type Plan,
  type PlanDefinition,
  RAIL,
  type RunAnswer,
  runOnce,
  type TrackColumns,
  tractiveEffort,
} from "@rideon/sim-core";
import { type Picture, pictureTaker } from "../write/picture.js";
import { type Steady, steadyOn } from "./steady.js";

/** What the files hold: all that an answer is worked out from. */
export interface Files {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables: MotorTables;
}

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

export const planOf = ({ plan, loco, track, tables }: Files): Plan => createPlan(plan, loco, track, tables);

export function lapOf(plan: Plan, chainage_m: number): Lap {
  const taker = pictureTaker();
  const run = runOnce(plan, { every_s: EVERY_s, onRow: taker.row });
  return { run, picture: taker.taken(), stops: brakesAt(plan, chainage_m) };
}

/** @param long the two that are worked out elsewhere at the same time */
export function dayOf(files: Files, long: Pick<Day, "laps" | "brakes">): Day {
  const plan = planOf(files);
  const load = loadTable(files);
  const ruling = load.ruling_gradient_compensated_percent / 100;
  const { reserve } = plan.train.battery;
  return {
    ...long,
    load,
    other: loadTable({ ...files, plan: onOtherRail(files.plan) }),
    effort: tractiveEffort(plan, ruling),
    low: plan.charge > reserve && reserve > 0 ? tractiveEffort({ ...plan, charge: reserve }, ruling) : null,
    level: steadyOn(files, 0),
    bank: ruling > 0 ? steadyOn(files, ruling) : null,
  };
}

function loadTable(files: Files): ClimbAnswer {
  const withAboard = (passengers: number) => planOf({ ...files, plan: { ...files.plan, passengers } });
  return climb(planOf(files), withAboard, seatsOf(files.plan));
}

export const seatsOf = ({ cars = [] }: PlanDefinition): number =>
  cars.reduce((sum, { seats = 0, count = 1 }) => sum + seats * count, 0);

/** Wet, or dry where the plan's rail is no better than wet: as `climb` has it. */
function onOtherRail(plan: PlanDefinition): PlanDefinition {
  const { adhesion, ...track } = plan.track;
  const poor = adhesion === undefined ? track.rail === "wet" || track.rail === "greasy" : adhesion <= RAIL.wet;
  return { ...plan, track: { ...track, rail: poor ? "dry" : "wet" } };
}
