import { type Climb, restartGradient, runningGradient } from "../../drive/climbing.js";
import { type Conditions, grip_N, pullAt, wellShare } from "../../drive/pull.js";
import { drive } from "../../driver/driver.js";
import { G_mps2 } from "../../parts/constants.js";
import { sound } from "../../record/sound.js";
import { run } from "../../run.js";
import type { LimitedBy } from "../../state.js";
import * as at from "../../state.js";
import { gradientsFelt } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { breakOff, type Working } from "../../working.js";
import { mustBeAsked } from "../asked.js";
import { forPulling } from "../safe.js";
import { steepest, waysOf } from "../ways.js";

/** A row of the load table. */
export interface ClimbRow {
  passengers: number;
  train_mass_kg: number;
  /** Steepest straight gradient it starts on, motor cold; and with winding and case as hot as its class allows. */
  restart_gradient_percent: number;
  restart_gradient_hot_percent: number;
  /** Steepest it keeps running on, at some speed: crawling. */
  running_gradient_percent: number;
  running_gradient_hot_percent: number;
  /** Steepest it keeps the plan's speed on; null where the plan holds a lever. */
  running_at_speed_gradient_percent: number | null;
  running_at_speed_gradient_hot_percent: number | null;
  /** What limits the restart. */
  limited_by: LimitedBy;
  /** Does it restart at the worst place here, out and back? Shown by running it, where the table needs it. */
  restarts_here: boolean;
}

/** The answer of `climb`: the load table. */
export interface ClimbAnswer {
  rail: string;
  charge: number;
  /** As this train feels it over its own length, with the plan's passengers; the doubt of a profile that tells it is counted in. */
  ruling_gradient_percent: number;
  ruling_gradient_at_m: number;
  ruling_gradient_compensated_percent: number;
  /** Most passengers with which it restarts at the worst place here; null where it does not even empty. */
  passengers_it_can_restart: number | null;
  /** Weight to add on the driven axles to use all the motor's pull, by the plan's train standing, kg; 0 where it grips. */
  ballast_wanted_kg: number;
  rows: ClimbRow[];
}

/** As many passengers as any club train takes. */
export const MOST_PASSENGERS = 60;
/** Where the plan holds a lever, a restart is driven to this speed, m/s. */
const RESTART_mps = 1;
/** Rows beyond the first load that fails, to see the trend. */
const ROWS_BEYOND = 2;

/**
 * The load table, from nobody to a little beyond what it can restart or has seats for.
 * @param own the plan as it is; @param planFor the plan with a number of passengers
 */
export function climb(own: Plan, planFor: (passengers: number) => Plan, seats: number): ClimbAnswer {
  mustBeAsked({ seats });
  const cars = own.train.vehicles.length > 1;
  const rows: ClimbRow[] = [];
  let most: number | null = null;
  for (let passengers = 0, failed = 0; passengers <= MOST_PASSENGERS; passengers++) {
    const plan = forPulling(planFor(passengers));
    const row = loadRow(plan, passengers);
    rows.push(row);
    if (row.restarts_here && failed === 0) most = passengers;
    if (!row.restarts_here) failed++;
    if (!cars || (failed > ROWS_BEYOND && passengers >= seats)) break;
  }
  const ways = waysOf(forPulling(own));
  const ruling = steepest(ways, "up");
  return sound({
    rail: own.rail,
    charge: own.charge,
    ruling_gradient_percent: 100 * ruling.share,
    ruling_gradient_at_m: ruling.chainage_m,
    ruling_gradient_compensated_percent: 100 * steepest(ways, "compensated").share,
    passengers_it_can_restart: most,
    ballast_wanted_kg: ballast_kg(own),
    rows,
  });
}

/** Winding at its limit, the case as far up as the steady flow of heat through both has it. */
export function hot(plan: Plan): Conditions {
  const { limit_degC, windingToCase_KpW: inner, caseToAir_KpW: outer } = plan.train.heat;
  const case_degC = plan.air_degC + ((limit_degC - plan.air_degC) * outer) / (inner + outer);
  return { charge: wellShare(plan.train, plan.charge), winding_degC: limit_degC, case_degC };
}

export const cold = (plan: Plan): Conditions => ({
  charge: wellShare(plan.train, plan.charge),
  winding_degC: plan.air_degC,
  case_degC: plan.air_degC,
});

function loadRow(plan: Plan, passengers: number): ClimbRow {
  const { train } = plan;
  const percent = (climbing: Climb) => 100 * climbing.sine;
  const starting = restartGradient(train, cold(plan));
  const atSpeed = (warmth: Conditions) =>
    Number.isNaN(plan.speed_mps) ? null : percent(runningGradient(train, warmth, plan.speed_mps));
  return {
    passengers,
    train_mass_kg: train.mass_kg,
    restart_gradient_percent: percent(starting),
    restart_gradient_hot_percent: percent(restartGradient(train, hot(plan))),
    running_gradient_percent: percent(runningGradient(train, cold(plan))),
    running_gradient_hot_percent: percent(runningGradient(train, hot(plan))),
    running_at_speed_gradient_percent: atSpeed(cold(plan)),
    running_at_speed_gradient_hot_percent: atSpeed(hot(plan)),
    limited_by: starting.limited_by,
    restarts_here: restartsHere(plan),
  };
}

/** Does it start again at the worst place here, each way it runs? @param plan as pulling counts it */
export const restartsHere = (plan: Plan): boolean =>
  // On the way back of a line the train stands on its mirror image, and forward is forward again.
  waysOf(plan).every((way) => {
    const worst = gradientsFelt(way.train, way.track).compensated;
    return restartsAt({ ...plan, train: way.train, track: way.track, wind_mps: way.wind_mps }, worst.chainage_m);
  });

/** Shown by running it: from rest at a place, held until the lever is open, it gets its own length away. */
export function restartsAt(plan: Plan, chainage_m: number): boolean {
  const { train } = plan;
  const speed_mps = Number.isNaN(plan.speed_mps) ? RESTART_mps : plan.speed_mps;
  const controller = { ...train.controller, ramp_s: 0 };
  const ready: Plan = { ...plan, speed_mps, lever: Number.NaN, duration_s: 300, train: { ...train, controller } };
  const driver = (w: Working) => {
    drive(w);
    if (w.y[at.RUN] > train.length_m) breakOff(w, "completed");
    else if (w.rollbacks > 0) breakOff(w, "stalled");
  };
  const options = { laps: Number.POSITIVE_INFINITY, runsOn: true, start: { chainage_m, held: true }, driver };
  const { outcome, endedBy } = run(ready, options);
  // Not where its time was up.
  return outcome === "completed" && endedBy === undefined;
}

/** Weight by which the grip of the standing train falls short of the motor's pull at its limit. */
function ballast_kg(plan: Plan): number {
  const { train } = plan;
  const short_N = pullAt(train, cold(plan), 0).rim_N - grip_N(train, 0);
  return Math.max(0, short_N) / (train.adhesion.static * G_mps2 * shareDriven(train));
}

const shareDriven = (train: Train): number => train.driven_N / (train.locoBody_kg * G_mps2);
