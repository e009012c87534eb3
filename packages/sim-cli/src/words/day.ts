import { formatPercent, isTrouble, type LimitsAnswer, type Plan } from "@rideon/sim-core";
import { ENDED_BY } from "./endings.js";
import type { Eyes } from "./eyes.js";
import { several } from "./setting.js";

/** The day between charges that `limits` plans for, as screen, page and card tell it. */
export interface DayWords {
  /** A sentence or two. */
  said: string;
  /** A few words, for a card. */
  short: string;
}

/** @param plan whose charge and reserve it is */
export function dayInWords(
  { laps_to_plan_for: count, day_ended_by: by, day_ended_at_m: at_m, day, logged }: LimitsAnswer,
  { charge, train: { battery } }: Plan,
  eyes: Eyes,
): DayWords {
  const reserve = `the reserve of ${formatPercent(battery.reserve)}`;
  const laps = several(count, "lap");
  if (by !== null && isTrouble(by)) {
    const where = at_m === null ? "" : ` at ${eyes.place(at_m)}`;
    const after = day.length === 0 ? "before it has done a lap" : `after ${several(day.at(-1)?.lap ?? 0, "lap")}`;
    return {
      said: `It ${ENDED_BY[by].it}${where}, ${after} and before the charge is down to ${reserve}. ${count === 0 ? "There is no lap to plan for." : `Plan for ${laps} at most.`}`,
      short: `it ${ENDED_BY[by].it} ${after}${count === 0 ? "" : `: plan for ${laps} at most`}`,
    };
  }
  if (charge <= battery.reserve) {
    const short = `charge it first: ${formatPercent(charge)} is not above ${reserve}`;
    return {
      said: `It begins with ${formatPercent(charge)} of the charge, which is not above ${reserve}: charge it first.`,
      short,
    };
  }
  if (logged?.agrees === false)
    return {
      said: `By the sums alone it would do ${laps} between charges. The logged run does not agree with them, so count on nothing until it is known why.`,
      short: "NOT KNOWN: a logged run does not agree with the sums",
    };
  if (by !== null) {
    const left = formatPercent(day.at(-1)?.state_of_charge ?? charge);
    const hours = by === "one_day" ? "24 hours" : "the plan's hours";
    return {
      said: `It does ${laps} in ${hours}, with ${left} of the charge left: a charge lasts longer than that.`,
      short: `lasts ${hours}: ${laps}, ${left} left`,
    };
  }
  if (count === 0)
    return {
      said: `The charge is down to ${reserve} before one lap is done.`,
      short: "NOT ONE LAP before the reserve",
    };
  return { said: `Plan for ${laps} between charges: ${reserve} is then still there.`, short: `plan for ${laps}` };
}

/** Less is no share to tell. */
const LEAST_MORE = 0.005;

/** What the day counts on. */
export function countedHow({ logged }: LimitsAnswer): string {
  const stiff = "It is counted with bearings as stiff as they may be";
  if (!logged?.draws || logged.draws < 1 + LEAST_MORE) return `${stiff}.`;
  const more = formatPercent(Math.round(100 * (logged.draws - 1)) / 100);
  return `${stiff}, or with what the log drew, ${more} more than the sums, whichever leaves fewer laps; the motor's heat counts what was drawn by its square, the breaker does not count it.`;
}
