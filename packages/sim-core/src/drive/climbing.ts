import { root } from "../numeric/roots.js";
import { G_mps2 } from "../parts/constants.js";
import type { LimitedBy } from "../state.js";
import type { Train } from "../train/train.js";
import { type Conditions, grip_N, pullAt, resistance_N } from "./pull.js";

/** A gradient as far as the train gets on it, and what stops it there. */
export interface Climb {
  /** Rise over distance; negative where it will not even move on the level. */
  sine: number;
  /** At which speed: 0 for a restart. */
  speed_mps: number;
  pull_N: number;
  motor_A: number;
  limited_by: LimitedBy;
}

/** No gradient outside this is of interest, and the pull of anything meets its weight within it. */
const STEEPEST = 0.95;

/** The steepest straight gradient it starts on from rest, lever full: the pull there meets gravity and what holds it. */
export const restartGradient = (train: Train, conditions: Conditions): Climb =>
  balanced(train, conditions, 0, train.breakaway_N);

/**
 * The steepest straight gradient on which it keeps running at a speed. Where none is given, at any: that of walking slowest,
 * since the pull at full lever never rises with speed and the resistance never falls.
 */
export const runningGradient = (train: Train, conditions: Conditions, speed_mps = CREEP_mps): Climb =>
  balanced(train, conditions, speed_mps, resistance_N(train, speed_mps));

/** As slow as running can be, m/s. */
export const CREEP_mps = 0.01;
/** Nothing here runs faster, m/s. */
export const FASTEST_mps = 40;

function balanced(train: Train, conditions: Conditions, speed_mps: number, resisting_N: number): Climb {
  const pull = pullAt(train, conditions, speed_mps);
  const weight_N = train.mass_kg * G_mps2;
  const over_N = (sine: number) => Math.min(pull.rim_N, grip_N(train, sine)) - resisting_N - weight_N * sine;
  const sine =
    over_N(STEEPEST) >= 0 ? STEEPEST : over_N(-STEEPEST) <= 0 ? -STEEPEST : root(over_N, -STEEPEST, STEEPEST);
  const gripped_N = grip_N(train, sine);
  const slips = gripped_N < pull.rim_N;
  return {
    sine,
    speed_mps,
    pull_N: Math.min(pull.rim_N, gripped_N),
    motor_A: pull.motor_A,
    limited_by: slips ? "adhesion" : pull.limited_by,
  };
}

/**
 * The speed at which the pull just meets what a gradient takes; 0 where it does not run at all.
 * @param passed_N the most that comes through to the rail: what the driven wheels grip, or less
 */
export function balancingSpeed_mps(
  train: Train,
  conditions: Conditions,
  sine: number,
  lever = 1,
  passed_N = grip_N(train, sine),
  wind_mps = 0,
): number {
  const weight_N = train.mass_kg * G_mps2;
  const over_N = (speed_mps: number) =>
    Math.min(pullAt(train, conditions, speed_mps, lever).rim_N, passed_N) -
    resistance_N(train, speed_mps, wind_mps) -
    weight_N * sine;
  if (over_N(CREEP_mps) <= 0) return 0;
  return over_N(FASTEST_mps) >= 0 ? FASTEST_mps : root(over_N, CREEP_mps, FASTEST_mps);
}
