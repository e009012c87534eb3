import { type ClimbAnswer, climb, type EffortAnswer, type Plan, RAIL, tractiveEffort } from "@rideon/sim-core";
import { type Files, planOf } from "../../work/files.js";
import type { OnProgress } from "../../work/question.js";

/** The load table, the same on another rail, and the pull against what the line takes of it. */
export interface ClimbTold extends ClimbAnswer {
  seats: number;
  /** On wet rail, or on dry rail where the plan's is no better than wet. */
  other_rail: ClimbAnswer;
  tractive_effort: EffortAnswer;
}

export const work = (files: Files, onProgress: OnProgress): { answer: ClimbTold } => ({
  answer: climbTold(files, (aboard) => onProgress({ doing: `trying the load table, ${aboard} aboard` })),
});

/** @param onLoad told how many are aboard in the load tried next */
export function climbTold(files: Files, onLoad?: (passengers: number) => void): ClimbTold {
  const answer = loadTable(files, onLoad);
  return {
    ...answer,
    seats: seatsOf(files),
    other_rail: loadTable(onOtherRail(files), onLoad),
    tractive_effort: tractiveEffort(planOf(files), answer.ruling_gradient_compensated_percent / 100),
  };
}

function loadTable(files: Files, onLoad: (passengers: number) => void = () => {}): ClimbAnswer {
  const withAboard = (passengers: number) => {
    onLoad(passengers);
    return planOf({ ...files, plan: { ...files.plan, passengers } });
  };
  return climb(planOf(files), withAboard, seatsOf(files));
}

const seatsOf = ({ plan: { cars = [] } }: Files): number =>
  cars.reduce((sum, { seats = 0, count = 1 }) => sum + seats * count, 0);

/** The same on wet rail, or on dry where the plan's rail is no better than wet. */
function onOtherRail(files: Files): Files {
  const { adhesion, ...track } = files.plan.track;
  const poor = adhesion === undefined ? track.rail === "wet" || track.rail === "greasy" : adhesion <= RAIL.wet;
  return { ...files, plan: { ...files.plan, track: { ...track, rail: poor ? "dry" : "wet" } } };
}

/** The pull with the battery down to its reserve; nothing where the plan starts no fuller. @param ruling a sine, uphill + */
export function atReserve(plan: Plan, ruling: number): EffortAnswer | undefined {
  const { reserve } = plan.train.battery;
  return plan.charge > reserve && reserve > 0 ? tractiveEffort({ ...plan, charge: reserve }, ruling) : undefined;
}

/** What the driven wheels pass on to wet rail, N. */
export const wetGrip_N = ({ train }: Plan, { grip_N }: EffortAnswer): number =>
  Math.min(1, RAIL.wet / train.adhesion.static) * grip_N;
