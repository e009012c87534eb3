import type { RunAnswer, Stall } from "@rideon/sim-core";
import type { Opened } from "../../words/ready.js";

/** How the working ended, where and when, in one sentence. */
export function outcome(answer: RunAnswer, { eyes }: Opened): string {
  const last = answer.events.at(-1);
  const time = eyes.of(answer.time_s, "time");
  const detail = last?.detail ?? "";
  if (answer.outcome === "completed") return `Completed: ${detail}, ${eyes.length(answer.distance_m)} in ${time}.`;
  const where = `at ${eyes.place(last?.chainage_m ?? 0)}, ${time} from the start`;
  if (answer.stall) return `${answer.outcome === "slipping" ? "Stands slipping" : "Stalled"} ${where}.`;
  return `${OUTCOMES[answer.outcome]} ${where}: ${detail}.`;
}

const OUTCOMES: Record<Exclude<RunAnswer["outcome"], "completed">, string> = {
  stalled: "Stalled",
  slipping: "Stands slipping",
  flat: "Flat",
  overran: "Overran",
  ran_away: "Ran away",
  tripped: "Tripped",
  burnt_out: "The motor burnt out",
};

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
  const why = stall.spinning ? SPINNING : HELD_BACK[stall.limited_by](opened, stall);
  return [`${pulls} ${why}`, `With the lever held there, ${amps}: ${bears}.`];
}

const SPINNING =
  "Its driven wheels spin, and spinning they grip less: shut the lever and open it less far. More weight on driven wheels helps, another driven axle, drier rail, or fewer aboard.";

const HELD_BACK: Record<Stall["limited_by"], (opened: Opened, stall: Stall) => string> = {
  adhesion: ({ eyes }, { grip_N }) =>
    `The driven wheels grip up to ${eyes.of(grip_N, "force")} on this rail, and more pull only spins them. More weight on driven wheels helps, another driven axle, drier rail, or fewer aboard.`,
  motor_current: ({ eyes, plan }) =>
    `The controller holds the motor to its limit of ${eyes.of(plan.train.controller.motorLimit_A, "current")}. A lower gear helps, a higher limit if the motor bears it, or fewer aboard.`,
  battery_current: () =>
    "The controller holds the battery to its limit. A lower gear helps, a higher limit, or fewer aboard.",
  duty: () =>
    "The lever is full open and the motor takes all the volts there are. A lower gear helps, or fewer aboard.",
  lever: () => "The lever is not open far enough.",
  battery: () =>
    "The battery gives no more: its own resistance takes the rest. A stronger or fuller battery helps, or a lower gear.",
  no_load_speed: () => "The motor takes no current.",
  plugging: () => "It is being driven backwards against its motor.",
};
