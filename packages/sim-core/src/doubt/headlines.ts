import { restartGradient } from "../drive/climbing.js";
import { isTrouble } from "../event.js";
import type { Place } from "../studies/brakes/places.js";
import { railsOf } from "../studies/brakes/sets.js";
import type { Stopped } from "../studies/brakes/stop.js";
import { stoppingOf } from "../studies/brakes/stopping.js";
import { cold, MOST_PASSENGERS, restartsHere } from "../studies/climb/climb.js";
import { dayOf } from "../studies/day.js";
import { fittedInto } from "../studies/gears/choices.js";
import { mostUpTo } from "../studies/limits/aboard.js";
import { countedOn, stopBy } from "../studies/limits/stops.js";
import { workedOnce } from "../studies/once.js";
import { rollingTimes, withoutDrag } from "../studies/safe.js";
import { madeSizing } from "../studies/size/input.js";
import { motorWanted } from "../studies/size/size.js";
import { steepest, waysOf } from "../studies/ways.js";
import { madePlan, type Plan } from "../train/plan.js";
import type { Headline } from "./bands.js";
import type { Drawn } from "./draw.js";

/** Questions whose answers have bands. */
export type Doubted = "run" | "laps" | "climb" | "gears" | "brakes" | "size" | "limits";

/** What the bare answer found: where it is hardest, with how many. Plain data. */
export interface Found {
  /** Sight distance to judge by, m. */
  readonly sight_m?: number;
  /** Where the longest stops are, by the head. */
  readonly hardest_m?: readonly number[];
  /** Number aboard that stops are told for. */
  readonly loaded?: number;
  /** What a logged run has of rolling, in times of what each draw has; as it is drawn where absent. */
  readonly rolling?: number;
  /** Teeth of the choice that is told first. */
  readonly teeth?: readonly (readonly [driving: number, driven: number])[];
}

/** @param index of the draw: what costs most need not be looked at in every one */
type Ask = (drawn: Drawn, found: Found, index: number) => Headline;

/** A day of `limits` is run in one draw of so many: stops and restarts want more draws, and cost less. */
const DAYS_ONE_IN = 2;

const planOf = ({ plan, loco, track, tables }: Drawn, passengers = plan.passengers ?? 0): Plan =>
  madePlan({ ...plan, passengers }, loco, track, tables);

const rulingOf = (plan: Plan): number => 100 * steepest(waysOf(plan), "compensated").share;

/** The headline of each question, of one draw: as the question works it out, but only what its first lines tell. */
export const HEADLINES: Readonly<Record<Doubted, Ask>> = {
  run(drawn) {
    const plan = planOf(drawn);
    const answer = workedOnce(plan);
    const whole = answer.outcome === "completed";
    const figure = (value: number) => (whole ? value : null);
    return {
      figures: {
        energy_Wh: figure(answer.energy_Wh),
        time_s: figure(answer.time_s),
        peak_motor_current_A: figure(answer.peak_motor_current_A),
        lowest_battery_voltage_V: figure(answer.lowest_battery_voltage_V),
        peak_winding_temperature_C: figure(answer.peak_winding_temperature_C),
      },
      margins: {},
      outcome: answer.outcome,
      ruling_percent: rulingOf(plan),
    };
  },
  laps(drawn) {
    const plan = planOf(drawn);
    return { ...dayTold(plan), ruling_percent: rulingOf(plan) };
  },
  climb(drawn) {
    const plan = planOf(drawn);
    return { ...climbTold(drawn, plan), outcome: "told", ruling_percent: rulingOf(plan) };
  },
  gears(drawn, { teeth }) {
    const { loco } = drawn;
    const plan = planOf(teeth ? { ...drawn, loco: { ...loco, gears: fittedInto(loco.gears, teeth) } } : drawn);
    const { sine } = restartGradient(plan.train, cold(plan));
    return {
      figures: { restart_gradient_percent: 100 * sine },
      margins: { restarts: 100 * sine - rulingOf(plan) },
      outcome: "told",
      ruling_percent: rulingOf(plan),
    };
  },
  brakes(drawn, found) {
    const plan = planOf(drawn);
    return { ...stopsTold(plan, found), ruling_percent: rulingOf(plan) };
  },
  size({ plan, loco, track, tables }) {
    const sizing = madeSizing(plan, loco, track, tables);
    const { motor, lap, ruling } = motorWanted(sizing);
    return {
      figures: {
        motor_continuous_power_W: motor.continuous_W,
        motor_peak_power_W: motor.peak_W,
        starting_force_N: motor.starting_N,
        rail_energy_per_lap_Wh: (lap.mean_N * lap.distance_m) / 3600,
      },
      margins: {},
      outcome: "told",
      ruling_percent: 100 * ruling.share,
    };
  },
  limits(drawn, found, index) {
    const plan = planOf(drawn, found.loaded);
    const day = index % DAYS_ONE_IN === 0 ? dayTold(plan) : null;
    const load = climbTold(drawn, planOf(drawn));
    const stops = stopsTold(plan, found);
    return {
      figures: {
        passengers_it_can_restart: load.figures["passengers_it_can_restart"] ?? null,
        ...stops.figures,
        ...(day && { laps_to_reserve: day.figures["laps_to_reserve"] ?? null }),
      },
      margins: { ...stops.margins, ...load.margins },
      outcome: day?.outcome ?? null,
      ruling_percent: rulingOf(plan),
    };
  },
};

type Part = Pick<Headline, "figures" | "margins" | "outcome">;

/** Laps to the reserve with the part of a lap that is left over: whole ones would be too coarse to smooth. */
function dayTold(plan: Plan): Part {
  const day = dayOf(plan, { coarse: true });
  const trouble = day.ended_by !== null && isTrouble(day.ended_by);
  const [before, last] = [day.rows.at(-2), day.rows.at(-1)];
  const from = before?.state_of_charge ?? plan.charge;
  const fell = last ? from - last.state_of_charge : 0;
  const part = day.ended_by === null && fell > 0 ? (from - plan.train.battery.reserve) / fell : 0;
  const laps = day.laps_to_reserve + Math.min(0.999, Math.max(0, part));
  const wanted = Number.isFinite(plan.laps) ? plan.laps : null;
  return {
    figures: {
      laps_to_reserve: trouble ? null : laps,
      charge_per_lap_Ah: day.laps > 0 && !trouble ? day.charge_C / 3600 / day.laps : null,
    },
    margins: {
      charge_lasts: trouble
        ? null
        : wanted === null
          ? day.ended_by === null
            ? -1
            : 1
          : Math.log(Math.max(1e-3, laps) / wanted),
    },
    outcome: day.ended_by !== null && trouble ? day.ended_by : "no_trouble",
  };
}

function climbTold(drawn: Drawn, plan: Plan): Pick<Headline, "figures" | "margins"> {
  const cap = plan.train.vehicles.length > 1 ? MOST_PASSENGERS : 0;
  const most = mostUpTo(cap, (passengers) => restartsHere(planOf(drawn, passengers)));
  return {
    figures: {
      passengers_it_can_restart: most ?? -1,
      restart_gradient_percent: 100 * restartGradient(plan.train, cold(plan)).sine,
    },
    margins: { restarts: Math.log(((most ?? -1) + 2.5) / (plan.passengers + 2)) },
  };
}

/** From the places that were hardest, by whoever may be counted on and with nobody's brake, the motor's drag left out. */
function stopsTold(drawn: Plan, { sight_m = 20, hardest_m = [], rolling = 1 }: Found): Part {
  const asked = rolling < 1 ? rollingTimes(drawn, rolling) : drawn;
  const plan = asked.train.motor.dragMeasured ? asked : { ...asked, train: withoutDrag(asked.train) };
  const stopping = stoppingOf(plan, sight_m);
  const rails = railsOf(plan);
  const worse = rails[rails.length - 1];
  const who = countedOn(plan.train);
  // A train of another length has places of its own, a hand's breadth away.
  const off_m = (at_m: number) => (place: Place) => Math.abs(place.chainage_m - at_m);
  const places = hardest_m.flatMap((at_m) => {
    const least_m = Math.min(...stopping.places.map(off_m(at_m)));
    return stopping.places.filter((place) => off_m(at_m)(place) === least_m);
  });
  const stopsBy = (by: typeof who): Stopped[] => {
    const stop = stopBy(stopping, by, worse);
    return places.map((place) => stop(place, stopping.speed_mps));
  };
  const bare = stopsBy("nobody");
  const stop_m = who === "nobody" ? null : longest_m(stopsBy(who));
  const run_on_m = longest_m(bare);
  return {
    figures: { ...(who === "nobody" ? {} : { stop_m }), run_on_m },
    // Without a brake there is nothing to hope for.
    margins:
      who === "nobody"
        ? {}
        : { stops_within_sight: stop_m === null ? null : Math.log(sight_m / Math.max(0.1, stop_m)) },
    outcome: unbraked(bare),
  };
}

/** Null where one of them is none, or there is no place to stop from. */
function longest_m(stops: readonly Stopped[]): number | null {
  const all = stops.flatMap(({ distance_m }) => distance_m ?? []);
  return all.length < stops.length || all.length === 0 ? null : Math.max(...all);
}

/** The worst that it does without a brake. */
function unbraked(stops: readonly Stopped[]): string {
  if (stops.length === 0) return "told";
  const none = stops.filter(({ distance_m }) => distance_m === null);
  if (none.length === 0) return "comes_to_rest_unbraked";
  return none.every(({ outcome }) => outcome === "rolls_back") ? "rolls_back_unbraked" : "runs_away_unbraked";
}
