import type { RunAnswer, Stall } from "@rideon/sim-core";
import { OUTCOMES } from "../../words/endings.js";
import { endInWords } from "../../words/events.js";
import { LIMITS, SPINNING } from "../../words/limits.js";
import type { Opened } from "../../words/ready.js";

/** How the working ended, where and when, in one sentence. */
export function outcome(answer: RunAnswer, { eyes }: Opened): string {
  const last = answer.events.at(-1);
  const time = eyes.of(answer.time_s, "time");
  const detail = endInWords(answer.events, eyes.exact);
  if (answer.outcome === "completed")
    return `${OUTCOMES.completed}: ${detail}, ${eyes.length(answer.distance_m)} in ${time}.`;
  const where = `at ${eyes.place(last?.chainage_m ?? 0)}, ${time} from the start`;
  if (answer.stall) return `${OUTCOMES[answer.outcome === "slipping" ? "slipping" : "stalled"]} ${where}.`;
  return `${OUTCOMES[answer.outcome]} ${where}: ${detail}.`;
}

/** Why it stands, what would help, and how long motor and breaker bear it. */
export function whyItStands(stall: Stall, opened: Opened): string[] {
  const { eyes, plan } = opened;
  const newtons = (value_N: number) => eyes.of(value_N, "force");
  const pulls = `It pulls ${newtons(stall.pull_N)} and would need ${newtons(stall.needed_N)} to start.`;
  const amps = `${eyes.of(stall.motor_current_A, "current")} in the motor and ${eyes.of(stall.battery_current_A, "current")} from the battery`;
  const { kind, rating_A } = plan.train.breaker;
  const breaker = kind === "none" ? "breaker" : `${eyes.of(rating_A, "current")} ${kind}`;
  const winding = `the winding reaches ${eyes.of(plan.train.heat.limit_degC, "temperature")}`;
  const trips = stall.trip_s === null ? undefined : `the ${breaker} trips after ${eyes.of(stall.trip_s, "time")}`;
  const runsAway = stall.thermal_runaway ? " and its heat runs away, for hotter copper makes more of it" : "";
  const burns =
    stall.too_hot_s === null ? undefined : `${winding} after ${eyes.of(stall.too_hot_s, "time")}${runsAway}`;
  const unguarded =
    burns && !trips
      ? `, and ${kind === "none" ? "no breaker is there to trip" : `the ${breaker} does not trip at that`}`
      : "";
  const bears =
    burns || trips ? `${[trips, burns].filter(Boolean).join("; ")}${unguarded}` : "breaker and winding bear that";
  const why = stall.spinning ? SPINNING.stands : LIMITS[stall.limited_by].stands(opened, stall);
  return [`${pulls} ${why}`, `With the lever held there, ${amps}: ${bears}.`];
}
