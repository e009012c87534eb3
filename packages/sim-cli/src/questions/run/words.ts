import { type Event, figures, formatPercent, type RunAnswer } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { eventInWords } from "../../words/events.js";
import type { Eyes } from "../../words/eyes.js";
import { notes } from "../../words/notes.js";
import { amiss, protectionSection } from "../../words/protection.js";
import type { Told } from "../../words/ready.js";
import { setting } from "../../words/setting.js";
import { besidesStops, brakingTroubles, carriedRow, stopRows } from "../../words/stops.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { chart } from "./chart.js";
import { energyRows } from "./energy.js";
import { marginRows } from "./margins.js";
import { outcome, whyItStands } from "./outcome.js";
import type { RunWorked } from "./work.js";

type RunTold = RunWorked & Told<RunAnswer>;

/** What a builder wants first stands first: how it ended, then what it took, then how near trouble was. */
export function runInWords(told: RunTold): readonly string[] {
  const { answer, eyes, all } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(outcome(answer, told)).map((line) => painted(line, "bold", screen)),
    ...wrapped(`${setting(told)}.`),
    ...(answer.stall ? whyItStands(answer.stall, told).flatMap(wrapped) : []),
    ...brakingTroubles(answer.events, told).flatMap(wrapped),
    "",
    ...table(factRows(told), { width: screen.columns }),
    ...chart(told, screen),
    ...section("Stops", table(stopRows(answer.events, told), { width: inside })),
    ...section("How near it came", table(marginRows(answer, told), { width: inside })),
    ...(all
      ? section("Where the energy went", table(energyRows(answer.energy_balance), { width: inside, right: [1, 2] }))
      : []),
    ...(all ? protectionSection(answer.protection, told, inside) : []),
    ...(all || answer.events.some(({ kind }) => !ROUTINE.includes(kind))
      ? section("What happened", eventLines(besidesStops(answer.events, told), eyes, inside, all ? LONG : BRIEF))
      : []),
    "",
    ...(all ? [] : [...amiss(answer.protection, told), REST].flatMap(wrapped)),
    ...notes(told).flatMap(wrapped),
    ...wrapped(CAUTION),
  ];
}

function factRows({ answer, eyes, plan }: RunTold): string[][] {
  const amps = (peak_A: number, rms_A: number) =>
    `${eyes.of(peak_A, "current")} at most, ${eyes.of(rms_A, "current")} rms`;
  const { drawn_J, returned_J } = answer.energy_balance;
  const rated_A = plan.train.motor.rated.current_A;
  const rated = Number.isFinite(rated_A) ? `; rated ${eyes.of(rated_A, "current")}` : "";
  const { reserve } = plan.train.battery;
  const limit = eyes.of(plan.train.heat.limit_degC, "temperature");
  const hot =
    answer.over_temperature_at_s === null
      ? `its class allows ${limit}`
      : `OVER the ${limit} of its class after ${eyes.of(answer.over_temperature_at_s, "time")}`;
  return [
    ["speed", `${eyes.speed(answer.top_speed_mps)} at most, ${eyes.speed(answer.mean_speed_mps)} in the mean`],
    ["motor", amps(answer.peak_motor_current_A, answer.rms_motor_current_A) + rated],
    ["winding", `${eyes.of(answer.peak_winding_temperature_C, "temperature")} at most; ${hot}`],
    ["battery", amps(answer.peak_battery_current_A, answer.rms_battery_current_A)],
    ["", `${eyes.of(answer.lowest_battery_voltage_V, "voltage")} at least`],
    [
      "charge",
      `${eyes.of(answer.charge_used_Ah * 3600, "charge")} (${wattHours(answer.energy_Wh)}) used, ${left(answer)} left`,
    ],
    ...(answer.state_of_charge_end < reserve
      ? [["", `BELOW the ${formatPercent(reserve)} to be kept in reserve`]]
      : []),
    ...(returned_J > 0 ? [["", `${wattHours(drawn_J / 3600)} drawn, ${wattHours(returned_J / 3600)} given back`]] : []),
    ["grip", `${formatPercent(answer.peak_adhesion_used)} used at most`],
    // A train that did not get round has carried nobody anywhere.
    ...(answer.outcome === "completed" ? carriedRow(answer) : []),
  ];
}

const wattHours = (energy_Wh: number): string => `${figures(energy_Wh)} Wh`;
const left = ({ state_of_charge_end }: RunAnswer): string => formatPercent(state_of_charge_end);

const REST = "--all tells where the energy went, what breaker and cables protect, and what happened when.";

/** What happens in every working that goes well, and what the first sentence tells. */
const ROUTINE: readonly Event["kind"][] = [
  ...(["starts", "lap", "shuts_off", "stop", "at_rest", "boarding", "turns", "completed"] as const),
  ...(["stalled", "slipping"] as const),
];

/** Longer logs are told by their beginning and their end. */
interface Length {
  readonly most: number;
  readonly first: number;
  readonly last: number;
}
const LONG: Length = { most: 14, first: 8, last: 5 };
const BRIEF: Length = { most: 6, first: 3, last: 2 };

function eventLines(events: readonly Event[], eyes: Eyes, width: number, { most, first, last }: Length): string[] {
  const row = (event: Event) => [
    eyes.of(Math.round(10 * event.time_s) / 10, "time"),
    `lap ${event.lap}`,
    eyes.place(event.chainage_m),
    eventInWords(event, eyes.exact),
  ];
  if (events.length <= most) return table(events.map(row), { width });
  const between = ["…", "", "", `${events.length - first - last} more: all with --out or --json`];
  return table([...events.slice(0, first).map(row), between, ...events.slice(-last).map(row)], { width });
}
