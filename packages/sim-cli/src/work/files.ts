import {
  createPlan,
  type LocoDefinition,
  type MotorTables,
  type Plan,
  type PlanDefinition,
  type TrackColumns,
} from "@rideon/sim-core";

/** What the files hold: all that an answer is worked out from. */
export interface Files {
  plan: PlanDefinition;
  loco: LocoDefinition;
  track: TrackColumns;
  tables: MotorTables;
}

export const planOf = ({ plan, loco, track, tables }: Files): Plan => createPlan(plan, loco, track, tables);

/** Of anything that has more besides, so that no more goes to a thread than must. */
export const filesOf = ({ plan, loco, track, tables }: Files): Files => ({ plan, loco, track, tables });
