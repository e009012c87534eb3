import { mean } from "simple-statistics";
import { type EndedBy, type Event, isTrouble } from "../event.js";
import type { Observer } from "../loop/stepper.js";
import { peukert_s } from "../parts/battery.wells.js";
import { sound } from "../record/sound.js";
import { stateOfCharge, tracer } from "../record/trace.js";
import { run } from "../run.js";
import * as at from "../state.js";
import type { Plan } from "../train/plan.js";
import { chainage_m, type Working } from "../working.js";
import { mustBeAsked } from "./asked.js";
import type { ChargingInShort } from "./charging/answer.js";
import { charging } from "./charging/charging.js";
import { carriage, type StudyOptions, waysOfRunning } from "./once.js";

/** What one lap of the day took. */
export interface LapRow {
  lap: number;
  time_s: number;
  energy_Wh: number;
  charge_Ah: number;
  state_of_charge: number;
  lowest_battery_voltage_V: number;
  peak_winding_temperature_C: number;
}

/** The answer of `laps`: how long a charge lasts. */
export interface LapsAnswer {
  /** Whole laps done before the charge falls to the reserve. */
  laps_to_reserve: number;
  /** Whole laps done when something ends the day. */
  laps_to_end: number;
  ended_by: EndedBy;
  ended_at_m: number;
  /** What ended it before the reserve was touched, were it not the plan's hours; null otherwise. */
  trouble: EndedBy | null;
  time_s: number;
  distance_m: number;
  /** Share of the label's charge left when the day ended, maybe in the middle of a lap. */
  state_of_charge_end: number;
  /** Drawn less returned, over the whole day. */
  charge_used_Ah: number;
  energy_per_lap_Wh: number | null;
  charge_per_lap_Ah: number | null;
  passengers_carried: number;
  passengers_per_hour: number | null;
  energy_per_passenger_Wh: number | null;
  per_lap: LapRow[];
  events: Event[];
  /** By hand: Peukert's law at the mean current, from the charge at the start, h; null where nothing is drawn in the mean. */
  hand_check_time_h: number | null;
  /** Why time and hand check differ by more than half of the shorter; null where they do not. */
  hand_check_differs: HandCheckDiffers | null;
  /** From where the day ended to full, with the plan's charger; null where it has none. */
  charging: ChargingInShort | null;
}

/**
 * Why Peukert's law and the simulation are far apart: something else than the battery ended the day; more came out than
 * the label counts, since rested wells hold more; pauses let the bound charge come over; the volts gave way while charge
 * was left; or peaks emptied the available well first.
 */
export type HandCheckDiffers = "not_the_battery" | "beyond_label" | "recovery" | "volts" | "peaks";

/** So many times longer or shorter wants a reason. */
const FAR = 1.5;

/** Laps until something ends the day: the battery, the breaker, a stall, the plan's duration or a whole day. */
export function laps(plan: Plan, options: StudyOptions = {}): LapsAnswer {
  mustBeAsked(options);
  const counter = lapCounter();
  const observers = options.onRow
    ? [counter.observer, tracer(options.every_s ?? 0.5, options.onRow)]
    : [counter.observer];
  const w = run(plan, { ...waysOfRunning(options), laps: Number.POSITIVE_INFINITY, observers });
  const { rows } = counter;
  const { battery } = w.train;
  const meanCurrent_A = w.y[at.DRAWN_CHARGE] / w.time_s;
  const hand_s =
    meanCurrent_A > 0
      ? plan.charge * peukert_s(battery.label_C, battery.label_s, battery.peukert, meanCurrent_A)
      : Number.NaN;
  return sound({
    laps_to_reserve: rows.filter((row) => row.state_of_charge >= battery.reserve).length,
    laps_to_end: w.lapsDone,
    ended_by: w.endedBy!,
    ended_at_m: chainage_m(w),
    trouble: stateOfCharge(w, w.y) >= battery.reserve && isTrouble(w.endedBy!) ? w.endedBy! : null,
    time_s: w.time_s,
    distance_m: w.y[at.RUN],
    state_of_charge_end: stateOfCharge(w, w.y),
    charge_used_Ah: w.y[at.DRAWN_CHARGE] / 3600,
    energy_per_lap_Wh: rows.length > 0 ? mean(rows.map((row) => row.energy_Wh)) : null,
    charge_per_lap_Ah: rows.length > 0 ? mean(rows.map((row) => row.charge_Ah)) : null,
    ...carriage(w),
    per_lap: rows,
    events: w.events,
    hand_check_time_h: Number.isNaN(hand_s) ? null : hand_s / 3600,
    hand_check_differs: handCheckDiffers(w, hand_s),
    charging: chargedAfter(plan, stateOfCharge(w, w.y)),
  });
}

function chargedAfter(plan: Plan, from: number): ChargingInShort | null {
  if (!plan.train.charger) return null;
  const { moments: _, ...charged } = charging(plan, { from: Math.min(1, from) });
  return charged;
}

function handCheckDiffers(
  { y, time_s, train, plan, outcome, endedBy }: Working,
  hand_s: number,
): HandCheckDiffers | null {
  const times = time_s / hand_s;
  if (!(times > FAR || times < 1 / FAR)) return null;
  if (outcome !== "flat") return "not_the_battery";
  if (times < 1) return endedBy === "empty" ? "peaks" : "volts";
  return y[at.DRAWN_CHARGE] > plan.charge * train.battery.label_C ? "beyond_label" : "recovery";
}

/** Looks on and closes a row at every lap. */
function lapCounter(): { observer: Observer; rows: LapRow[] } {
  const rows: LapRow[] = [];
  let lowest_V = Number.POSITIVE_INFINITY;
  let hottest_degC = Number.NEGATIVE_INFINITY;
  const done = { time_s: 0, energy_J: 0, charge_C: 0 };
  const look = ({ now, y }: Working) => {
    if (now.terminal_V < lowest_V) lowest_V = now.terminal_V;
    if (y[at.WINDING] > hottest_degC) hottest_degC = y[at.WINDING];
  };
  const observer: Observer = {
    step: look,
    change: look,
    event(w) {
      if (w.lapsDone === rows.length) return;
      const energy_J = w.y[at.DRAWN] - w.y[at.RETURNED];
      rows.push({
        lap: w.lapsDone,
        time_s: w.time_s - done.time_s,
        energy_Wh: (energy_J - done.energy_J) / 3600,
        charge_Ah: (w.y[at.DRAWN_CHARGE] - done.charge_C) / 3600,
        state_of_charge: stateOfCharge(w, w.y),
        lowest_battery_voltage_V: lowest_V,
        peak_winding_temperature_C: hottest_degC,
      });
      Object.assign(done, { time_s: w.time_s, energy_J, charge_C: w.y[at.DRAWN_CHARGE] });
      lowest_V = Number.POSITIVE_INFINITY;
      hottest_degC = Number.NEGATIVE_INFINITY;
    },
  };
  return { observer, rows };
}
