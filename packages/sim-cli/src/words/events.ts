import { type Event, format, shown } from "@rideon/sim-core";
import { type Exact, exactIn } from "./eyes.js";
import { LIMITS, SPINNING } from "./limits.js";
import { several } from "./setting.js";

type Kind = Event["kind"];
type Of<K extends Kind> = Extract<Event, { kind: K }>;

/** What happened in a few words; when and where stands beside it. */
export const eventInWords = <K extends Kind>(event: Of<K> & Event, exact: Exact): string =>
  (WORDS[event.kind] as (event: Event, exact: Exact) => string)(event, exact);

/** What the last of them was: how a working ended. */
export function endInWords(events: readonly Event[], exact: Exact): string {
  const last = events.at(-1);
  return last ? eventInWords(last, exact) : "";
}

/** An event as documents have it: its numbers, and what happened in SI units. */
export type DetailedEvent = Event & { detail: string };

/** An answer with such events. */
export type Detailed<A extends Eventful> = A & { events: DetailedEvent[] };
interface Eventful {
  events: readonly Event[];
}

export const detailed = <A extends Eventful>(answer: A): Detailed<A> => ({
  ...answer,
  events: answer.events.map(detailOf),
});

export const detailOf = (event: Event): DetailedEvent => ({ ...event, detail: eventInWords(event, METRIC) });

const METRIC = exactIn();

const placeInWords = (place: string | null): string => place ?? "the end of the line";

const COMPLETED: Record<Of<"completed">["by"], (event: Of<"completed">) => string> = {
  laps: (event) => (event.by === "laps" ? `${several(event.laps_done, "lap")} done` : ""),
  duration: ({ time_s }) => `${format(time_s, "time", "metric")} run`,
  one_day: () => "a whole day run",
};

const SWITCHES = { isolator: "isolator", dead_man: "dead-man's switch" } as const;

const ELEMENTS = { thermal: "has tripped on its thermal", magnetic: "has tripped at once on its magnetic" } as const;

const WORDS: { [K in Kind]: (event: Of<K>, exact: Exact) => string } = {
  completed: (event) => COMPLETED[event.by](event),
  stalled: (event, exact) => `${event.rolled_back ? "came to rest after rolling back; " : ""}it ${stall(event, exact)}`,
  slipping: () => "the wheels spin and the train stands",
  flat: (event, exact) => flat(event, exact),
  overran: ({ place, speed_mps, shut_off }, exact) =>
    `passed ${placeInWords(place)} at ${exact(speed_mps, "speed")}${shut_off ? "" : "; it cannot be stopped here without a brake, or without a better one"}`,
  ran_away: ({ speed_mps }, exact) => `rolled back ${exact(speed_mps, "speed")} fast and nothing stops it`,
  tripped: (event, exact) =>
    event.by === "breaker"
      ? `the ${exact(event.rating_A, "current")} ${event.device} ${ELEMENTS[event.element]} element, at ${exact(event.battery_current_A, "current")}`
      : `the battery's protection: over ${exact(event.limit_A, "current")}`,
  burnt_out: ({ winding_temperature_C }, exact) =>
    `the motor is at ${exact(winding_temperature_C, "temperature")}, which no motor stands`,
  starts: ({ motor_current_A }, exact) =>
    motor_current_A > 0 ? `starts with ${exact(motor_current_A, "current")} in the motor` : "starts to roll by itself",
  at_rest: () => "the train has come to rest",
  rolls_back: ({ gravity_N }, exact) => `gravity pulls ${exact(gravity_N, "force")} and overcomes what holds the train`,
  slips: ({ asked_N, grip_N }, exact) =>
    `the wheels slip: ${exact(asked_N, "force")} asked, ${exact(grip_N, "force")} of grip`,
  grips: () => "the wheels grip again",
  axles_lock: ({ vehicle }) => `the braked wheels of ${vehicle} lock and slide`,
  axles_turn: ({ vehicle }) => `the braked wheels of ${vehicle} turn again`,
  shuts_off: ({ speed_mps }, exact) => `shuts off at ${exact(speed_mps, "speed")} to come in`,
  cannot_stop: ({ place, within_m }, exact) =>
    `cannot be stopped at ${placeInWords(place)}${within_m === null ? "" : ` from more than ${exact(within_m, "length")} before it`}: the road falls too steeply`,
  draws_up: ({ short_m }, exact) => `rests ${exact(short_m, "length")} short and draws up`,
  stop: ({ place }) => `stands at ${placeInWords(place)}`,
  boarding: ({ passengers }) => `${passengers} aboard`,
  turns: () => "turns back at the end of the line",
  lap: ({ laps_done, energy_Wh }) => `lap ${laps_done} done, ${shown(energy_Wh, "Wh")} from the battery so far`,
  too_hot: ({ limit_temperature_C }, exact) =>
    `winding at the limit of its class, ${exact(limit_temperature_C, "temperature")}`,
  too_fast: ({ speed_mps, wanted_speed_mps }, exact) =>
    `${exact(speed_mps, "speed")} where ${exact(wanted_speed_mps, "speed")} is wanted`,
  beyond_switch: ({ switch: name, battery_current_A, breaks_A }, exact) =>
    `${exact(battery_current_A, "current")} from the battery, more than the ${exact(breaks_A, "current")} that the ${SWITCHES[name]} can break`,
  battery_full: () => "the battery is full and takes nothing back",
};

function flat(event: Of<"flat">, exact: Exact): string {
  switch (event.by) {
    case "empty":
      return "the battery is empty";
    case "undervoltage":
      return `the controller's cut-out: below ${exact(event.cutout_voltage_V, "voltage")} for ${exact(event.cutout_delay_s, "time")}`;
    case "battery_protection":
      return `the battery's protection: below ${exact(event.low_voltage_V, "voltage")}`;
  }
}

function stall({ pull_N, needed_N, motor_current_A, ...event }: Of<"stalled">, exact: Exact): string {
  const pulls = `pulls ${exact(pull_N, "force")} of the ${exact(needed_N, "force")} it takes to start`;
  const held = `held back by: ${event.spinning ? SPINNING.logged : LIMITS[event.limited_by].logged}`;
  const runsAway = event.thermal_runaway
    ? "; at this current the motor's heat runs away: hotter copper makes more of it"
    : "";
  return `${pulls}, with ${exact(motor_current_A, "current")} in the motor; ${held}${runsAway}`;
}
