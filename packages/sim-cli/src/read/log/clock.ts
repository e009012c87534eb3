import { quotedCell } from "../csv/csv.js";

const CLOCK = /^(\d{1,3}):([0-5]?\d)(?::([0-5]?\d(?:\.\d+)?))?$/;
const DAY = /^\d{4}-\d\d-\d\d[T ]\d\d:\d\d/;
const NOON_s = 43_200;
const DAY_s = 86_400;

export const isClock = (cell: string): boolean => CLOCK.test(cell) || DAY.test(cell);

/** Reads times by the clock, `10:32:05.2`, and by the day, `2027-05-04T10:32:05Z` (ISO 8601), in seconds; midnight goes on. */
export function clockIn(): (cell: string, refuse: (message: string) => void) => number {
  let last_s = Number.NEGATIVE_INFINITY;
  let days_s = 0;
  return (cell, refuse) => {
    const [, hours, minutes, seconds = "0"] = CLOCK.exec(cell) ?? [];
    const day_s = DAY.test(cell) ? Date.parse(cell.replace(" ", "T")) / 1000 : Number.NaN;
    if (hours === undefined && Number.isNaN(day_s)) {
      refuse(`${quotedCell(cell)} is no time; it is such as 10:32:05, or give the seconds in a column time_s`);
      return Number.NaN;
    }
    if (hours === undefined) return day_s;
    let time_s = days_s + Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
    if (time_s < last_s - NOON_s) {
      days_s += DAY_s;
      time_s += DAY_s;
    }
    last_s = time_s;
    return time_s;
  };
}
