import {
  type BrakesAnswer,
  type BrakesRow,
  brakesAt,
  type CompareAnswer,
  type EffortAnswer,
  type GearsAnswer,
  type LimitsAnswer,
  type Plan,
  type RunAnswer,
  runOnce,
  type Sureness,
} from "@rideon/sim-core";
import { type Picture, pictureTaker } from "../../charts/picture.js";
import { type Files, planOf } from "../../work/files.js";
import type { FiledStops } from "../brakes/stopping.svg.js";
import type { ClimbTold } from "../climb/work.js";
import { atReserve, climbTold } from "../climb/work.js";
import { type Steady, steadyOn } from "./steady.js";

/** One lap, and the stops from one place: worked out while the reader's hand is on a control. */
export interface Lap {
  run: RunAnswer;
  picture: Picture;
  /** From the place chosen. */
  stops: readonly BrakesRow[];
  /** The lap as the files have it, once a control was moved. */
  ghost?: Picture;
}

/** What takes longer. */
export interface Day extends RestOfDay {
  brakes: BrakesAnswer;
  limits: LimitsAnswer;
}

/** The load table, the pull behind it, and what the instruments read. */
export interface RestOfDay {
  climb: ClimbTold;
  /** With the battery down to its reserve; null where the plan starts no fuller. */
  low: EffortAnswer | null;
  level: Steady | null;
  bank: Steady | null;
}

export interface Facts extends Lap, Day {
  files: Files;
  plan: Plan;
  gears: GearsAnswer | null;
  /** Absent where it was not asked for, or is still being worked out. */
  sureness?: Sureness;
  /** A logged run beside the sums, where one was given: about the files' plan, whatever the controls say. */
  compared?: CompareAnswer;
  /** Stops as the files have them, once a control was moved. */
  filed?: readonly FiledStops[];
}

/** As `run` has it unless told. */
const EVERY_s = 0.5;

export function lapOf(plan: Plan, chainage_m: number): Lap {
  const taker = pictureTaker();
  const run = runOnce(plan, { every_s: EVERY_s, onRow: taker.row });
  return { run, picture: taker.taken(), stops: brakesAt(plan, chainage_m) };
}

export function restOfDay(files: Files): RestOfDay {
  const plan = planOf(files);
  const climb = climbTold(files);
  const ruling = climb.ruling_gradient_compensated_percent / 100;
  return {
    climb,
    low: atReserve(plan, ruling) ?? null,
    level: steadyOn(files, 0),
    bank: ruling > 0 ? steadyOn(files, ruling) : null,
  };
}
