import { type Driver, seated } from "../driver/own.js";
import type { Event, Outcome, Stall } from "../event.js";
import { chooseStep_s } from "../loop/step.js";
import { type EnergyBalance, energyBalance } from "../record/balance.js";
import { sound } from "../record/sound.js";
import { type Summary, summariser } from "../record/summary.js";
import { stateOfCharge, type TraceRow, tracer } from "../record/trace.js";
import { type RunOptions, run } from "../run.js";
import * as at from "../state.js";
import type { Plan } from "../train/plan.js";
import { startWorking, type Working } from "../working.js";
import { mustBeAsked } from "./asked.js";
import type { ProtectionAnswer } from "./protection/answer.js";
import { protectionOf } from "./protection/protection.js";

/** The answer of `run`: one working. */
export interface RunAnswer extends Summary {
  outcome: Outcome;
  laps: number;
  distance_m: number;
  time_s: number;
  charge_used_Ah: number;
  /** At the battery's terminals, drawn less returned. */
  energy_Wh: number;
  mean_speed_mps: number;
  rms_motor_current_A: number;
  rms_battery_current_A: number;
  state_of_charge_end: number;
  /** Those who set out, and those that each stop took aboard. */
  passengers_carried: number;
  /** Null where nobody gets on or off: the same riders go round and round, and are carried once. */
  passengers_per_hour: number | null;
  energy_per_passenger_Wh: number | null;
  /** Why it stands, where it stalled or its wheels spin. */
  stall: Stall | null;
  events: Event[];
  energy_balance: EnergyBalance;
  /** Breaker or fuse and both cables against the currents of this working. */
  protection: ProtectionAnswer;
}

export interface StudyOptions {
  step_s?: number;
  /** Interval of the trace; no trace where `onRow` is absent. */
  every_s?: number;
  onRow?: (row: TraceRow) => void;
  /** Who drives in place of the plan's driver. */
  driver?: Driver;
}

/** The step that a study of this plan takes unless told, s; `longest_s` where nothing in the train asks for less. */
export const usualStep_s = (plan: Plan, longest_s?: number): number => chooseStep_s(startWorking(plan), longest_s);

/**
 * One working of the plan.
 * @throws InputError where an option is wrong
 * @throws RunError where a figure of it is no number, or its books do not close
 */
export function runOnce(plan: Plan, options: StudyOptions = {}): RunAnswer {
  mustBeAsked(options);
  return sound(workedOnce(plan, options));
}

/** The same, not yet looked at: for a study that takes only some of its figures. */
export function workedOnce(plan: Plan, options: StudyOptions = {}): RunAnswer {
  const { observer, summary } = summariser();
  const observers = options.onRow ? [observer, tracer(options.every_s ?? 0.5, options.onRow)] : [observer];
  const w = run(plan, { ...waysOfRunning(options), observers });
  const { y, time_s } = w;
  const rms = (square: number) => (time_s > 0 ? Math.sqrt(square / time_s) : 0);
  const currents = {
    rms_motor_current_A: rms(y[at.MOTOR_SQUARE]),
    rms_battery_current_A: rms(y[at.BATTERY_SQUARE]),
  };
  return {
    outcome: w.outcome ?? "completed",
    laps: w.lapsDone,
    distance_m: y[at.RUN],
    time_s,
    charge_used_Ah: y[at.DRAWN_CHARGE] / 3600,
    energy_Wh: (y[at.DRAWN] - y[at.RETURNED]) / 3600,
    mean_speed_mps: time_s > 0 ? y[at.RUN] / time_s : 0,
    ...currents,
    state_of_charge_end: stateOfCharge(w, y),
    ...carriage(w),
    stall: w.outcome === "stalled" || w.outcome === "slipping" || w.outcome === "ran_away" ? (w.stall ?? null) : null,
    ...summary,
    events: w.events,
    energy_balance: energyBalance(w),
    protection: protectionOf(plan, { ...currents, ...summary }),
  };
}

/** What a study is asked with, as a run is told. */
export const waysOfRunning = ({ step_s, driver }: StudyOptions): Pick<RunOptions, "step_s" | "driver"> => ({
  ...(step_s === undefined ? {} : { step_s }),
  ...(driver === undefined ? {} : { driver: seated(driver) }),
});

/** Who was carried, by the hour, and at what energy. */
export function carriage(w: Working) {
  const energy_Wh = (w.y[at.DRAWN] - w.y[at.RETURNED]) / 3600;
  const boards = w.plan.stops.some(({ passengers }) => passengers !== undefined);
  return {
    passengers_carried: w.carried,
    passengers_per_hour: boards && w.time_s > 0 ? (w.carried * 3600) / w.time_s : null,
    energy_per_passenger_Wh: w.carried > 0 ? energy_Wh / w.carried : null,
  };
}
