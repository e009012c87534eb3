import { restartGradient } from "../../drive/climbing.js";
import { outcomeOf } from "../../event.js";
import { madePlan } from "../../train/plan.js";
import { railsOf } from "../brakes/sets.js";
import { stoppingOf } from "../brakes/stopping.js";
import { cold, MOST_PASSENGERS, restartsHere } from "../climb/climb.js";
import { laps } from "../laps.js";
import { mostUpTo } from "../limits/aboard.js";
import { limits, type PlanFiles } from "../limits/limits.js";
import { countedOn, stopRows } from "../limits/stops.js";
import { workedOnce } from "../once.js";
import { forPulling, forStopping } from "../safe.js";
import type { Ask } from "./asking.js";
import { counted, goesBelowReserve, mostAboardOf, stoppingLacks, unbraked } from "./lacks.js";

/** As far as any driver sees on a club line, m: what `brakes` and `limits` take unless told. */
const SIGHT_m = 20;

export const tablesOf = ({ tables, doubts }: PlanFiles) => ({ ...tables, ...(doubts && { doubts }) });

export const askRun: Ask = ({ plan }) => {
  const answer = workedOnce(plan());
  const whole = answer.outcome === "completed";
  const figure = (value: number) => (whole ? value : null);
  return {
    figures: {
      time_s: figure(answer.time_s),
      energy_Wh: figure(answer.energy_Wh),
      // What it came to before it ended is told: it was no less.
      peak_motor_current_A: answer.peak_motor_current_A,
      peak_battery_current_A: answer.peak_battery_current_A,
      lowest_battery_voltage_V: answer.lowest_battery_voltage_V,
      peak_winding_temperature_C: answer.peak_winding_temperature_C,
      top_speed_mps: answer.top_speed_mps,
    },
    trouble: whole ? null : answer.outcome,
    lacks: [
      ...(answer.over_temperature_at_s === null ? [] : ["winding_over_class"]),
      ...goesBelowReserve(plan(), answer.state_of_charge_end < plan().train.battery.reserve),
    ],
  };
};

export const askLaps: Ask = ({ plan }) => {
  const answer = laps(plan());
  const { trouble, laps_to_reserve, energy_per_lap_Wh, charge_per_lap_Ah, events } = answer;
  const { battery } = plan().train;
  // A plan of hours ends with them; one of laps is run until something ends the day, and they must be done before the reserve.
  const goes =
    answer.ended_by === "duration"
      ? answer.state_of_charge_end < battery.reserve
      : trouble === null && laps_to_reserve < plan().laps;
  return {
    figures: { laps_to_reserve, energy_per_lap_Wh, charge_per_lap_Ah },
    // In the word that `run` has for it.
    trouble: trouble === null ? null : outcomeOf(events),
    lacks: [
      ...(events.some(({ kind }) => kind === "too_hot") ? ["winding_over_class"] : []),
      ...goesBelowReserve(plan(), goes),
    ],
  };
};

export const askClimb: Ask = ({ files, plan }) => {
  const aboard = (passengers: number) =>
    forPulling(madePlan({ ...files.plan, passengers }, files.loco, files.track, tablesOf(files)));
  const own = forPulling(plan());
  const cap = own.train.vehicles.length > 1 ? MOST_PASSENGERS : 0;
  const most = mostUpTo(cap, (passengers) => restartsHere(aboard(passengers)));
  return {
    figures: {
      passengers_it_can_restart: most,
      restart_gradient_percent: 100 * restartGradient(own.train, cold(own)).sine,
      restarts: restartsHere(own),
    },
    trouble: null,
    ...(most === null && { lacks: ["restarts_not_even_empty"], toldBy: ["restarts"] }),
  };
};

export const askBrakes: Ask = ({ plan }) => {
  const stopping = stoppingOf(forStopping(plan()), SIGHT_m);
  const rails = railsOf(plan());
  const rows = stopRows(stopping, rails);
  const worse = rails[rails.length - 1].rail;
  const by = countedOn(plan().train);
  const braked = rows.find(({ who, rail }) => by !== "nobody" && who === by && rail === worse);
  const bare = rows.find(({ who }) => who === "nobody");
  const lacks = stoppingLacks(braked, bare);
  return {
    figures: {
      stops_m: braked?.distance_m ?? null,
      runs_on_m: bare?.distance_m ?? null,
      with_no_brake: unbraked(bare),
      stops_in_sight: braked?.outcome === "stops",
    },
    trouble: null,
    lacks,
    // One that stops beyond sight has a distance to say so by.
    toldBy: braked?.outcome === "beyond_sight" ? [] : ["stops_in_sight"],
  };
};

export const askLimits: Ask = ({ files }) => {
  const { most_aboard, laps_to_plan_for, may_carry, charge_lasts, day_outcome } = limits(files);
  const tooMany = mostAboardOf(files.plan) - most_aboard;
  const round = day_outcome === "completed";
  return {
    figures: {
      most_aboard,
      laps_to_plan_for,
      // Of those who are aboard, as the plan has them: the train may carry some does not help them.
      may_carry: may_carry && tooMany <= 0,
      // What ends a day before its time is no matter of the charge.
      charge_lasts: round ? charge_lasts : null,
    },
    trouble: round ? null : day_outcome,
    ...(may_carry && tooMany > 0 && { lacks: [counted("too_many_aboard", tooMany)], toldBy: ["may_carry"] }),
  };
};
