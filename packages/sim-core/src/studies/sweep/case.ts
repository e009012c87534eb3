import { restartGradient } from "../../drive/climbing.js";
import { sound } from "../../record/sound.js";
import { createPlan, madePlan, type Plan } from "../../train/plan.js";
import { railsOf } from "../brakes/sets.js";
import { stoppingOf } from "../brakes/stopping.js";
import { cold, MOST_PASSENGERS, restartsHere } from "../climb/climb.js";
import { laps } from "../laps.js";
import { mostUpTo } from "../limits/aboard.js";
import { limits, type PlanFiles } from "../limits/limits.js";
import { countedOn, stopRows } from "../limits/stops.js";
import { workedOnce } from "../once.js";
import { forPulling, forStopping } from "../safe.js";
import { figuresOf, type Swept } from "./figures.js";

/** What one case came to: null where it has no such figure, as what runs away has no stopping distance. */
export interface SweptCase {
  readonly figures: Readonly<Record<string, number | boolean | null>>;
  /** `completed`, or what ended a working or a day before its time. */
  readonly outcome: string;
  /** How many warnings its plan has. */
  readonly warnings: number;
  /** Figures that hold in no case to be recommended, and do not hold here. */
  readonly short: readonly string[];
}

type Part = { figures: Record<string, number | boolean | null>; trouble: string | null };

/** As far as any driver sees on a club line, m: what `brakes` and `limits` take unless told. */
const SIGHT_m = 20;

const ASK: Readonly<Record<Swept, (files: PlanFiles, plan: Plan) => Part>> = {
  run(_, plan) {
    const answer = workedOnce(plan);
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
    };
  },
  laps(_, plan) {
    const { trouble, laps_to_reserve, energy_per_lap_Wh, charge_per_lap_Ah } = laps(plan);
    return { figures: { laps_to_reserve, energy_per_lap_Wh, charge_per_lap_Ah }, trouble };
  },
  climb(files, plan) {
    const aboard = (passengers: number) =>
      forPulling(madePlan({ ...files.plan, passengers }, files.loco, files.track, tablesOf(files)));
    const own = forPulling(plan);
    const cap = plan.train.vehicles.length > 1 ? MOST_PASSENGERS : 0;
    return {
      figures: {
        passengers_it_can_restart: mostUpTo(cap, (passengers) => restartsHere(aboard(passengers))),
        restart_gradient_percent: 100 * restartGradient(own.train, cold(own)).sine,
        restarts: restartsHere(own),
      },
      trouble: null,
    };
  },
  brakes(_, plan) {
    const stopping = stoppingOf(forStopping(plan), SIGHT_m);
    const rails = railsOf(plan);
    const rows = stopRows(stopping, rails);
    const worse = rails[rails.length - 1].rail;
    const by = countedOn(plan.train);
    const braked = rows.find(({ who, rail }) => by !== "nobody" && who === by && rail === worse);
    const bare = rows.find(({ who }) => who === "nobody");
    return {
      figures: {
        stops_m: braked?.distance_m ?? null,
        runs_on_m: bare?.distance_m ?? null,
        stops_in_sight: braked?.outcome === "stops",
      },
      trouble: null,
    };
  },
  limits(files) {
    const { most_aboard, laps_to_plan_for, may_carry, charge_lasts } = limits(files);
    return { figures: { most_aboard, laps_to_plan_for, may_carry, charge_lasts }, trouble: null };
  },
};

const tablesOf = ({ tables, doubts }: PlanFiles) => ({ ...tables, ...(doubts && { doubts }) });

/**
 * The key figures of a plan, by the questions asked: a pure function of its files.
 * @throws InputError where the files make no train; RunError where a run of it cannot be finished
 */
export function sweptCase(files: PlanFiles, asked: readonly Swept[]): SweptCase {
  const plan = createPlan(files.plan, files.loco, files.track, tablesOf(files));
  const parts = asked.map((question) => ASK[question](files, plan));
  const figures = Object.assign({}, ...parts.map((part) => part.figures)) as SweptCase["figures"];
  const trouble = parts.find((part) => part.trouble !== null)?.trouble;
  return sound({
    figures,
    outcome: trouble ?? "completed",
    warnings: plan.notes.warnings.length,
    short: figuresOf(asked).flatMap(({ name, holds }) => (holds && figures[name] === false ? [name] : [])),
  });
}
