import { isTrouble } from "../../event.js";
import type { Plan } from "../../train/plan.js";
import { type Day, dayOf } from "../day.js";
import { forPulling } from "../safe.js";

/** What a logged run says of the sums. */
export interface LogSays {
  /** Is all of it within what both leave open? Null where it is and tells too little. */
  agrees: boolean | null;
  /** Share of the line that it was held beside the sums on, and whether its steepest bits are in that. */
  covers: { share: number; steepest: boolean };
  /** What it drew, in times of what the sums have; null where no current was logged. */
  draws: number | null;
  /**
   * How freely it leaves the train to roll, in times of what the sums have: 1 where it drew no less than they do; null where
   * it tells nothing of that.
   */
  rolls: number | null;
}

/** A log that agrees, or drew less, is leaned on for how freely the train rolls: then it must tell. */
export const tellsRolling = ({ agrees, draws, rolls }: LogSays): boolean =>
  rolls !== null || (agrees !== true && (draws ?? 1) >= 1);

/**
 * The day to plan for: with bearings as stiff as they may be, or, where that is fewer laps, with what the log drew more than
 * the sums. A log that drew less promises nothing: it was of one day.
 */
export function dayToPlanFor(plan: Plan, log: LogSays | undefined): Day {
  const stiff = dayOf(forPulling(plan));
  if (!log?.draws || log.draws <= 1) return stiff;
  const logged = drawing(dayOf(plan), log.draws, plan);
  return logged.laps_to_reserve < stiff.laps_to_reserve ? { ...logged, ...ending(stiff, logged) } : stiff;
}

/** Trouble of either ends the day. */
const ending = (stiff: Day, logged: Day): Partial<Day> =>
  stiff.ended_by !== null && isTrouble(stiff.ended_by)
    ? { ended_by: stiff.ended_by, ended_at_m: stiff.ended_at_m, laps: Math.min(stiff.laps, logged.laps) }
    : {};

/** The same day, each lap taking so many times what it took. */
function drawing(day: Day, times: number, { charge, train: { battery } }: Plan): Day {
  const rows = day.rows.map((row) => ({
    ...row,
    state_of_charge: Math.max(0, charge - times * (charge - row.state_of_charge)),
  }));
  const left = rows.at(-1)?.state_of_charge ?? charge;
  // The hours that the plan asks are over before the reserve is touched.
  if (day.ended_by !== null && !isTrouble(day.ended_by) && left >= battery.reserve) return { ...day, rows };
  const above = charge - battery.reserve;
  const done =
    day.ended_by === null ? day.laps_to_reserve / times : (day.laps * above) / Math.max(above, charge - left);
  const laps_to_reserve = Math.floor(done);
  return {
    ...day,
    rows: rows.filter(({ lap }, i) => i === 0 || lap <= laps_to_reserve + 1),
    laps_to_reserve,
    ended_by: day.ended_by !== null && isTrouble(day.ended_by) ? day.ended_by : null,
  };
}
