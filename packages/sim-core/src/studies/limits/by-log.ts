import { isTrouble } from "../../event.js";
import { BURNT_OUT_degC } from "../../margins.js";
import { emfLoaded_V } from "../../parts/battery.js";
import { motorResistance_ohm } from "../../parts/motor.points.js";
import type { Own } from "../../train/own.js";
import type { Plan } from "../../train/plan.js";
import { type Day, dayOf } from "../day.js";
import type { LapRow } from "../laps.js";
import { forPulling } from "../safe.js";

/** What a logged run says of the sums. */
export interface LogSays {
  /** Is all of it within what both leave open? Null where it is and tells too little. */
  agrees: boolean | null;
  /** Share of the line on which it would have shown another load than the sums have, and whether its steepest bits are in that. */
  covers: { share: number; steepest: boolean };
  /** What it drew, in times of what the sums have; null where no current was logged. */
  draws: number | null;
  /**
   * How freely it leaves the train to roll, in times of what the sums have: 1 where it drew no less than they do; null where
   * it tells nothing of that.
   */
  rolls: number | null;
  /** The same in the middle of what it leaves open: what the draws of how sure stops are go about. */
  rolls_about?: number | null;
  /**
   * How stiffly it leaves the train to roll, in times of what the sums have: 1 where it drew no more than they do; null where
   * it tells nothing of that.
   */
  stiffens: number | null;
}

/** A log that agrees, or drew less, is leaned on for how freely the train rolls: then it must tell. */
export const tellsRolling = ({ agrees, draws, rolls }: LogSays): boolean =>
  rolls !== null || (agrees !== true && (draws ?? 1) >= 1);

/** So is one that drew more, for how stiffly. */
export const tellsPulling = ({ agrees, draws, stiffens }: LogSays): boolean =>
  stiffens !== null || (agrees !== true && (draws ?? 1) <= 1);

/** What a logged run leaves open of rolling, as a train is made with it. */
export const rollingBy = (logged: LogSays | undefined): Pick<Own, "rolls" | "stiffens"> => ({
  ...(logged && logged.rolls !== null && { rolls: logged.rolls }),
  ...(logged && logged.stiffens !== null && { stiffens: logged.stiffens }),
});

/**
 * The day to plan for: with bearings as stiff as they may be, or, where that is fewer laps, with what the log drew more than
 * the sums; its motor as hot as it gets in either. A log that drew less promises nothing: it was of one day.
 */
export function dayToPlanFor(plan: Plan, log: LogSays | undefined): Day {
  const stiff = dayOf(forPulling(plan));
  if (!log?.draws || log.draws <= 1) return stiff;
  const logged = drawing(dayOf(plan), log.draws, plan);
  return logged.laps_to_reserve < stiff.laps_to_reserve
    ? hotterOf({ ...logged, ...ending(stiff, logged) }, stiff)
    : hotterOf(stiff, logged);
}

/** Trouble of either ends the day. */
const ending = (stiff: Day, logged: Day): Partial<Day> =>
  stiff.ended_by !== null && isTrouble(stiff.ended_by)
    ? {
        ended_by: stiff.ended_by,
        outcome: stiff.outcome,
        ended_at_m: stiff.ended_at_m,
        laps: Math.min(stiff.laps, logged.laps),
      }
    : {};

/** The same day with its motor as hot, lap by lap, as in the other if that is hotter. */
function hotterOf(day: Day, other: Day): Day {
  const rows = day.rows.map((row) => {
    const beside = rowAt(other.rows, row.lap)?.peak_winding_temperature_C ?? Number.NEGATIVE_INFINITY;
    return { ...row, peak_winding_temperature_C: Math.max(row.peak_winding_temperature_C, beside) };
  });
  return {
    ...day,
    rows,
    winding_degC: Math.max(day.winding_degC, ...rows.map((row) => row.peak_winding_temperature_C)),
  };
}

/** The same day, each lap taking so many times what it took: charge, volts and heat are those of the same state. */
function drawing(day: Day, times: number, plan: Plan): Day {
  const { charge } = plan;
  const { battery } = plan.train;
  const all = day.rows.map((row) => drawn(row, times, plan));
  const left = all.at(-1)?.state_of_charge ?? charge;
  const winding_degC = hotter_degC(day.winding_degC, times, plan);
  // The hours that the plan asks are over before the reserve is touched.
  if (day.ended_by !== null && !isTrouble(day.ended_by) && left >= battery.reserve)
    return { ...day, rows: all, winding_degC };
  const above = charge - battery.reserve;
  const done =
    day.ended_by === null ? day.laps_to_reserve / times : (day.laps * above) / Math.max(above, charge - left);
  const laps_to_reserve = Math.floor(done);
  const before = all.filter(({ lap }, i) => i === 0 || lap < laps_to_reserve);
  const end = rowAt(all, laps_to_reserve);
  const rows = end && end.lap > (before.at(-1)?.lap ?? 0) ? [...before, end] : before;
  return {
    ...day,
    rows,
    winding_degC: Math.max(plan.air_degC, ...rows.map((row) => row.peak_winding_temperature_C)),
    laps_to_reserve,
    ...(day.ended_by !== null && isTrouble(day.ended_by) ? {} : { ended_by: null, outcome: "completed" as const }),
  };
}

/** A lap that takes so many times the current: so many times the charge, the sag of the volts, and its square of heat. */
function drawn(row: LapRow, times: number, plan: Plan): LapRow {
  const { charge } = plan;
  const { battery } = plan.train;
  const state_of_charge = Math.max(0, charge - times * (charge - row.state_of_charge));
  const sag_V = emfLoaded_V(battery, row.state_of_charge) - row.lowest_battery_voltage_V;
  return {
    ...row,
    energy_Wh: times * row.energy_Wh,
    charge_Ah: times * row.charge_Ah,
    state_of_charge,
    lowest_battery_voltage_V: Math.max(0, emfLoaded_V(battery, state_of_charge) - times * sag_V),
    peak_winding_temperature_C: hotter_degC(row.peak_winding_temperature_C, times, plan),
  };
}

/**
 * A winding under so many times the current, as if all that heats it went by the square and had settled: copper that is
 * hotter resists more, and heats itself more. No hotter than one that has burnt out.
 */
function hotter_degC(degC: number, times: number, { train: { motor }, air_degC }: Plan): number {
  let now_degC = degC;
  for (let i = 0; i < SETTLES_IN; i++) {
    const more = times ** 2 * (motorResistance_ohm(motor, now_degC) / motorResistance_ohm(motor, degC));
    now_degC = Math.min(BURNT_OUT_degC, air_degC + Math.max(0, degC - air_degC) * more);
  }
  return Math.max(degC, now_degC);
}

const SETTLES_IN = 30;

/** A lap that was not run, straight between those beside it; the nearest before the first and after the last. */
function rowAt(rows: readonly LapRow[], lap: number): LapRow | undefined {
  const next = rows.find((row) => row.lap >= lap) ?? rows.at(-1);
  const last = rows.findLast((row) => row.lap <= lap) ?? next;
  if (!next || !last || next.lap === last.lap) return next;
  const share = (lap - last.lap) / (next.lap - last.lap);
  const between = (of: (row: LapRow) => number) => of(last) + share * (of(next) - of(last));
  return {
    lap,
    time_s: between((row) => row.time_s),
    energy_Wh: between((row) => row.energy_Wh),
    charge_Ah: between((row) => row.charge_Ah),
    state_of_charge: between((row) => row.state_of_charge),
    lowest_battery_voltage_V: between((row) => row.lowest_battery_voltage_V),
    peak_winding_temperature_C: between((row) => row.peak_winding_temperature_C),
  };
}
