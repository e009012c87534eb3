import {
  createPlan,
  type LocoDefinition,
  type LogSays,
  type MotorTables,
  type Plan,
  type PlanDefinition,
  rollingBy,
  type TrackColumns,
  type TypedDoubts,
} from "@rideon/sim-core";

/** What the files hold: all that an answer is worked out from. */
export interface Files {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables: MotorTables;
  /** Doubt that was typed beside figures. */
  doubts?: TypedDoubts;
  /** What a logged run says of the sums. */
  logged?: LogSays;
}

export const planOf = ({ plan, loco, track, tables, doubts, logged }: Files): Plan =>
  createPlan(plan, loco, track, { ...tables, ...(doubts && { doubts }), ...rollingBy(logged) });

/** Of anything that has more besides, so that no more goes to a thread than must. */
export const filesOf = ({ plan, loco, track, tables, doubts, logged }: Files): Files => ({
  plan,
  loco,
  track,
  tables,
  ...(doubts && { doubts }),
  ...(logged && { logged }),
});
