import type { TypedDoubts } from "../doubt/typed.js";
import type { DrawnDefault } from "../errors.js";
import type { MotorFigures } from "../parts/motor.rating.js";
import type { MotorTables } from "../parts/motor.tables.js";

/** The train as a law of resistance sees it. */
export interface Resisting {
  /** With everybody aboard. */
  readonly mass_kg: number;
  readonly length_m: number;
  readonly vehicles: number;
}

/** What the rolling of the whole train takes on level straight track at a speed from 0 up, without the air, N. */
export type ResistanceLaw = (speed_mps: number, train: Resisting) => number;

/** What stands in no file: tables that a motor names, and figures and laws of the user's own. */
export interface Own extends MotorTables {
  /** A motor by figures that were worked out elsewhere, in place of nameplate, constants, bench, curve or saturation. */
  readonly motor?: MotorFigures;
  /**
   * In place of the vehicles' rolling resistance; the air's stays, as `drag_area_m2` has it. Never below 0, and without a
   * leap: it is asked while the train moves, very often, and must give the same for the same speed.
   */
  readonly resistance_N?: ResistanceLaw;
  /** Draws what is assumed, within its doubt. */
  readonly drawn?: DrawnDefault;
  /** Doubt that was typed beside figures: what counts on the safe side takes its ends. */
  readonly doubts?: TypedDoubts;
  /** Share of what the files have as rolling resistance down to which a logged run leaves it open; 1 where it leaves no less. */
  readonly rolls?: number;
  /** So many times of it up to which a logged run leaves it open; 1 where it leaves no more. */
  readonly stiffens?: number;
}
