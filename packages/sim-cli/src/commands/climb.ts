import {
  type ClimbAnswer,
  climb as climbed,
  type EffortAnswer,
  type PlanDefinition,
  RAIL,
  tractiveEffort,
  usualStep_s,
} from "@rideon/sim-core";
import type { PictureFlags } from "../options.js";
import { climbInWords } from "../write/climb.words.js";
import { answered } from "./answered.js";
import { climbFigures } from "./drawn.js";
import { type Opened, openPlan, planOf } from "./opened.js";

/** The load table, the same on another rail, and the pull against what the line takes of it. */
export interface ClimbTold extends ClimbAnswer {
  seats: number;
  /** On wet rail, or on dry rail where the plan's is no better than wet. */
  other_rail: ClimbAnswer;
  tractive_effort: EffortAnswer;
}

/** With how many aboard the train starts again on the worst place here. @returns the exit status */
export function climb(path: string, flags: PictureFlags): number {
  const opened = openPlan(path, flags);
  const step_s = usualStep_s(opened.plan);
  return answered(opened, flags, { command: "climb", work, inWords: climbInWords, draw: climbFigures, step_s });
}

function work({ plan, reading }: Opened): ClimbTold {
  const answer = loadTable(reading);
  return {
    ...answer,
    seats: seatsOf(reading.plan),
    other_rail: loadTable({ ...reading, plan: onOtherRail(reading.plan) }),
    tractive_effort: tractiveEffort(plan, answer.ruling_gradient_compensated_percent / 100),
  };
}

function loadTable(reading: Opened["reading"]): ClimbAnswer {
  const withAboard = (passengers: number) => planOf({ ...reading, plan: { ...reading.plan, passengers } });
  return climbed(planOf(reading), withAboard, seatsOf(reading.plan));
}

const seatsOf = ({ cars = [] }: PlanDefinition): number =>
  cars.reduce((sum, { seats = 0, count = 1 }) => sum + seats * count, 0);

function onOtherRail(plan: PlanDefinition): PlanDefinition {
  const { adhesion, ...track } = plan.track;
  const poor = adhesion === undefined ? track.rail === "wet" || track.rail === "greasy" : adhesion <= RAIL.wet;
  return { ...plan, track: { ...track, rail: poor ? "dry" : "wet" } };
}
