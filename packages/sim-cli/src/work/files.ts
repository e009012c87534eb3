import {
  type ClimbAnswer,
  climb,
  createPlan,
  type EffortAnswer,
  type LocoDefinition,
  type MotorTables,
  type Plan,
  type PlanDefinition,
  RAIL,
  type TrackColumns,
  tractiveEffort,
} from "@rideon/sim-core";

/** What the files hold: all that an answer is worked out from. */
export interface Files {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables: MotorTables;
}

export const planOf = ({ plan, loco, track, tables }: Files): Plan => createPlan(plan, loco, track, tables);

/** The load table, the same on another rail, and the pull against what the line takes of it. */
export interface ClimbTold extends ClimbAnswer {
  seats: number;
  /** On wet rail, or on dry rail where the plan's is no better than wet. */
  other_rail: ClimbAnswer;
  tractive_effort: EffortAnswer;
}

/** @param onLoad told how many are aboard in the load tried next */
export function climbTold(files: Files, onLoad?: (passengers: number) => void): ClimbTold {
  const answer = loadTable(files, onLoad);
  return {
    ...answer,
    seats: seatsOf(files.plan),
    other_rail: loadTable(onOtherRail(files), onLoad),
    tractive_effort: tractiveEffort(planOf(files), answer.ruling_gradient_compensated_percent / 100),
  };
}

export function loadTable(files: Files, onLoad: (passengers: number) => void = () => {}): ClimbAnswer {
  const withAboard = (passengers: number) => {
    onLoad(passengers);
    return planOf({ ...files, plan: { ...files.plan, passengers } });
  };
  return climb(planOf(files), withAboard, seatsOf(files.plan));
}

export const seatsOf = ({ cars = [] }: PlanDefinition): number =>
  cars.reduce((sum, { seats = 0, count = 1 }) => sum + seats * count, 0);

/** The same on wet rail, or on dry where the plan's rail is no better than wet. */
export function onOtherRail(files: Files): Files {
  const { adhesion, ...track } = files.plan.track;
  const poor = adhesion === undefined ? track.rail === "wet" || track.rail === "greasy" : adhesion <= RAIL.wet;
  return { ...files, plan: { ...files.plan, track: { ...track, rail: poor ? "dry" : "wet" } } };
}
