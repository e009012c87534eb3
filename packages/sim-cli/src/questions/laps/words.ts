import { figures, formatPercent, type HandCheckDiffers, type LapRow, type LapsAnswer } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { chargingInWords } from "../../words/charging.js";
import { ENDED_BY } from "../../words/endings.js";
import { notes } from "../../words/notes.js";
import type { Told } from "../../words/ready.js";
import { setting, several } from "../../words/setting.js";
import { brakingTroubles, carriedRow, stopRows } from "../../words/stops.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";

/** The number first, then what ended the day, what a lap takes, and the same sum by hand. */
export function lapsInWords(told: Told<LapsAnswer>): readonly string[] {
  const { answer } = told;
  const screen = terminal();
  const wrapped = (text: string) => wrap(text, screen.columns);
  return [
    ...wrapped(headline(told)).map((line) => painted(line, "bold", screen)),
    ...wrapped(`${setting(told)}.`),
    ...brakingTroubles(answer.events, told).flatMap(wrapped),
    "",
    ...table(factRows(told), { width: screen.columns }),
    ...section("Stops", table(stopRows(answer.events, told), { width: screen.columns - 2 })),
    ...section("Lap by lap", lapTable(told, screen.columns - 2)),
    ...section("By hand", wrap(byHand(told), screen.columns - 2)),
    ...section(
      "Charging",
      answer.charging ? wrap(chargingInWords(answer.charging, told.eyes), screen.columns - 2) : [],
    ),
    "",
    ...notes(told).flatMap(wrapped),
    ...wrapped(CAUTION),
  ];
}

/** How many laps to plan on, or what stands in the way of knowing. */
function headline({ answer, plan, eyes }: Told<LapsAnswer>): string {
  const { laps_to_reserve: count, laps_to_end: all, trouble, ended_at_m, state_of_charge_end } = answer;
  const share = formatPercent(plan.train.battery.reserve);
  const left = formatPercent(state_of_charge_end);
  if (trouble) {
    const done = all === 0 ? "before it has done a lap" : `after ${several(all, "lap")}`;
    return `It ${ENDED_BY[trouble].it} at ${eyes.place(ended_at_m)}, ${done}, with ${left} of the charge left: that ends the day, not the charge.`;
  }
  if (plan.charge < plan.train.battery.reserve)
    return `It begins with ${formatPercent(plan.charge)} of the charge, less than the ${share} to be kept in reserve: charge it first. ${several(all, "lap")} until the end.`;
  if (count === all)
    return `${several(all, "lap")} in the ${eyes.of(answer.time_s, "time")} that the plan has; ${left} of the charge is left, so that a charge lasts longer than that.`;
  return `${several(count, "lap")} with ${share} kept in reserve, ${all} until the end.`;
}

function factRows(told: Told<LapsAnswer>): string[][] {
  const { answer, eyes } = told;
  const { per_lap, energy_per_lap_Wh, charge_per_lap_Ah } = answer;
  const toReserve_s = sum(per_lap.slice(0, answer.laps_to_reserve), (row) => row.time_s);
  const lap_s = sum(per_lap, (row) => row.time_s) / per_lap.length;
  const rows = [
    ...(answer.laps_to_reserve < answer.laps_to_end ? [["to the reserve", hours(toReserve_s, told)]] : []),
    ["to the end", `${hours(answer.time_s, told)}, ${eyes.length(answer.distance_m)}`],
    ["ended by", `${ENDED_BY[answer.ended_by].what(told)}, at ${eyes.place(answer.ended_at_m)}`],
  ];
  const carried = carriedRow(answer);
  if (energy_per_lap_Wh === null || charge_per_lap_Ah === null) return [...rows, ...carried];
  const each = `${eyes.of(lap_s, "time")}, ${eyes.of(charge_per_lap_Ah * 3600, "charge")}, ${figures(energy_per_lap_Wh)} Wh`;
  return [...rows, ["a lap", `${each} in the mean`], ...carried];
}

const sum = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((total, item) => total + of(item), 0);
const hours = (time_s: number, { eyes }: Told<LapsAnswer>): string => eyes.of(time_s, "time");

/** Longer tables are told by their beginning, the lap of the reserve and their end. */
const MOST_LAPS = 12;
const FIRST_LAPS = 4;
const LAST_LAPS = 4;

function lapTable({ answer, eyes }: Told<LapsAnswer>, width: number): string[] {
  const { per_lap, laps_to_reserve } = answer;
  if (per_lap.length === 0) return [];
  const row = (lap: LapRow) => [
    String(lap.lap),
    eyes.of(lap.time_s, "time"),
    eyes.of(lap.charge_Ah * 3600, "charge"),
    formatPercent(lap.state_of_charge),
    eyes.of(lap.lowest_battery_voltage_V, "voltage"),
    eyes.of(lap.peak_winding_temperature_C, "temperature"),
  ];
  const told =
    per_lap.length <= MOST_LAPS ? per_lap : per_lap.filter(({ lap }) => isTold(lap, laps_to_reserve, per_lap.length));
  const rows = told.flatMap((lap, i) => {
    const skipped = i > 0 && lap.lap !== (told[i - 1]?.lap ?? 0) + 1;
    const reserve = lap.lap === laps_to_reserve && laps_to_reserve < per_lap.length ? ["← reserve"] : [];
    return [...(skipped ? [["…"]] : []), [...row(lap), ...reserve]];
  });
  const head = ["lap", "time", "charge", "left", "volts at least", "winding at most", ""];
  return table(rows, { width, head, right: [0, 1, 2, 3, 4, 5] });
}

const isTold = (lap: number, reserve: number, last: number): boolean =>
  lap <= FIRST_LAPS || lap > last - LAST_LAPS || Math.abs(lap - reserve) <= 1;

/** Peukert's law beside the simulation, and why the two differ. */
function byHand(told: Told<LapsAnswer>): string {
  const { answer, eyes } = told;
  const { hand_check_time_h, hand_check_differs, time_s, ended_by } = answer;
  if (hand_check_time_h === null) return "Peukert's law has nothing to say: in the mean the battery gave no current.";
  const mean_A = meanCurrent_A(answer);
  const hand = eyes.of(hand_check_time_h * 3600, "time");
  const sums = `Peukert's law at the mean current${mean_A ? ` of ${eyes.of(mean_A, "current")}` : ""} gives ${hand}; the train ran ${eyes.of(time_s, "time")}.`;
  if (!BATTERY_ENDS.has(ended_by))
    return `${sums} It was not the battery that ended the day, so the two are not the same question.`;
  if (hand_check_differs) return `${sums} ${FAR_APART[hand_check_differs](told)}`;
  const ratio = time_s / (hand_check_time_h * 3600);
  if (Math.abs(ratio - 1) < ALIKE) return `${sums} They agree as well as such sums do.`;
  return `${sums} ${ratio < 1 ? PEAKS : PAUSES}`;
}

const PEAKS =
  "The law takes a steady current until the battery is flat; the train draws in peaks uphill, and there the volts fall to the end of the day while charge is still left.";
const PAUSES =
  "The law takes a steady current; the train draws little downhill, and there the battery recovers some of what the hills took.";

/** Where the two are far apart. */
const FAR_APART: Record<HandCheckDiffers, (told: Told<LapsAnswer>) => string> = {
  not_the_battery: () => "Something else than the battery ended the day.",
  beyond_label: ({ answer, plan, eyes }) => {
    const { label_C, wells_C } = plan.train.battery;
    const drawn_C = 3600 * answer.charge_used_Ah;
    return `More came out, ${eyes.of(drawn_C, "charge")}, than the label counts at this charge, ${eyes.of(plan.charge * label_C, "charge")}: a rested battery holds ${eyes.of(wells_C - label_C, "charge")} more than its label gives, and slow running with pauses brings part of it out. Do not plan on it: it is the last of a battery that is all but flat.`;
  },
  recovery: () => PAUSES,
  volts: () => PEAKS,
  peaks: () =>
    "The law takes a steady current; the train draws in peaks, which empty what is within reach before the rest has come over.",
};

const BATTERY_ENDS = new Set(["undervoltage", "empty", "battery_protection"]);
const ALIKE = 0.03;

function meanCurrent_A({ per_lap }: LapsAnswer): number | undefined {
  const time_s = sum(per_lap, (row) => row.time_s);
  return time_s > 0 ? (3600 * sum(per_lap, (row) => row.charge_Ah)) / time_s : undefined;
}
