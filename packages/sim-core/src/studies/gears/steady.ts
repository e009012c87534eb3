import { currentForTorque } from "../../drive/circuit.js";
import { type Climb, restartGradient } from "../../drive/climbing.js";
import { type Conditions, grip_N, pullAt, resistance_N } from "../../drive/pull.js";
import { RAIL } from "../../parts/adhesion.js";
import { RATING_AIR_degC } from "../../parts/heat.js";
import { coolingShare } from "../../parts/heat.nodes.js";
import { fluxFactor, motorResistance_ohm, ratedLosses } from "../../parts/motor.points.js";
import { curvesAt_N, gradientsFelt, gravityAt_N } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { waysOf } from "../ways.js";

/** The line as far as gears are concerned: what it takes along the way, and its worst place each way it is run. */
export interface Road {
  /** Gravity and curves at places evenly spread over all that is run, N. */
  readonly forces_N: readonly number[];
  /** Steepest uphill with curves, one for each way. */
  readonly ruling: readonly number[];
}

const PLACES = 256;

export function roadOf(plan: Plan): Road {
  const ways = waysOf(plan);
  return {
    forces_N: ways.flatMap(({ train, track }) => {
      const from_m = track.kind === "circuit" ? 0 : train.length_m;
      const apart_m = (track.length_m - from_m) / PLACES;
      const heads_m = Array.from({ length: PLACES }, (_, i) => from_m + (i + 0.5) * apart_m);
      return heads_m.map((head_m) => gravityAt_N(train, track, head_m) + curvesAt_N(train, track, head_m));
    }),
    // Restarts are judged by the steepest that the survey leaves open.
    ruling: waysOf({ ...plan, leaning: 1 }).map(({ train, track }) => gradientsFelt(train, track).compensated.share),
  };
}

/** A restart at the worst place, the way that leaves least in hand. */
export interface Restart extends Climb {
  /** Gradient with curves that it meets there. */
  readonly ruling: number;
}

export function hardestRestart(plan: Plan, road: Road, train: Train, conditions: Conditions): Restart {
  const restarts = waysOf({ ...plan, train }).map((way, i) => ({
    ...restartGradient(way.train, conditions),
    ruling: road.ruling[i],
  }));
  return restarts.reduce((worst, each) => (each.sine - each.ruling < worst.sine - worst.ruling ? each : worst));
}

/** The most that can come to the rims: the motor's pull standing and cold, or the grip of a rail at least dry. */
export const hardestPull_N = (plan: Plan, train: Train, conditions: Conditions): number =>
  Math.min(pullAt(train, conditions, 0).rim_N, mostGrip_N(plan, train));

/** Grip on a rail at least dry, as a share of the load. */
export const bestGrip = ({ adhesion }: Train): number => Math.max(adhesion.static, RAIL.dry);

/** What the driven wheels pass on there before they slip, N; of both ways of a line the one that loads them more. */
export function mostGrip_N(plan: Plan, train: Train): number {
  const adhesion = { ...train.adhesion, static: bestGrip(train) };
  return Math.max(...waysOf({ ...plan, train }).map((way) => grip_N({ ...way.train, adhesion }, 0)));
}

/**
 * The motor current that holds the winding just at its class for ever, in air of 40 °C, A: at rated speed the rated current
 * unless the loco file says otherwise; at a lower one less where a fan on the shaft cools it.
 */
export function continuousCurrent_A({ motor, heat }: Train, motor_radps = motor.rated.speed_radps): number {
  const { brush_V, drag_W } = ratedLosses(motor);
  const caseToAir_KpW = heat.caseToAir_KpW / coolingShare(heat, motor_radps);
  const through_KpW = heat.windingToCase_KpW + caseToAir_KpW;
  const winding_W = Math.max(0, heat.limit_degC - RATING_AIR_degC - caseToAir_KpW * drag_W) / through_KpW;
  const hot_ohm = motorResistance_ohm(motor, heat.limit_degC);
  return (2 * winding_W) / (brush_V + Math.sqrt(brush_V ** 2 + 4 * hot_ohm * winding_W));
}

/** Motor current that brings a force to the rims at a speed, by the lever that takes, A; 0 where none is wanted. */
export function currentFor_A(train: Train, conditions: Conditions, force_N: number, speed_mps: number): number {
  const { motor, gears, radius_m } = train;
  const motor_radps = (speed_mps * gears.ratio) / radius_m;
  const shaft_Nm = (Math.max(0, force_N) * radius_m) / (gears.ratio * gears.efficiency);
  const flux = fluxFactor(motor, conditions.case_degC);
  if (force_N <= 0) return 0;
  return currentForTorque(motor, flux, shaft_Nm + motor.drag_Nm + motor.dragPerSpeed_Nms * motor_radps);
}

/** The rms motor current of running the line at one speed, short of the controller's limit, A: no starts, no heat. */
export function steadyRms_A(
  train: Train,
  conditions: Conditions,
  road: Road,
  speed_mps: number,
  wind_mps: number,
): number {
  const level_N = resistance_N(train, speed_mps, wind_mps);
  const squares = road.forces_N.map(
    (force_N) =>
      Math.min(currentFor_A(train, conditions, level_N + force_N, speed_mps), train.controller.motorLimit_A) ** 2,
  );
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}
