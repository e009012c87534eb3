import type { Event, Outcome } from "../../event.js";
import { FEWEST_TEETH, LEAST_WRAP_rad, MOST_RATIO, MOST_TEETH } from "../../parts/chain.js";
import type { ChainSize } from "../../parts/chain.keys.js";
import { LEAST_MARGIN } from "../../parts/chain.load.js";
import type { ChainRow } from "./chain.row.js";
import type { Restart } from "./steady.js";

/** The sprockets of the stage that a fault is about. */
interface OfStage {
  driving_teeth: number;
  driven_teeth: number;
}

/** What can be wrong with a chain, its sprockets and its layout: what was found, and what it should be. */
export type ChainFault = OfStage &
  (
    | { code: "few_teeth"; least_teeth: number }
    | { code: "many_teeth"; most_teeth: number }
    | { code: "stage_ratio"; ratio: number; most_ratio: number }
    /** Breaking load over the highest pull. */
    | { code: "chain_margin"; chain: ChainSize; peak_tension_N: number; margin: number; least_margin: number }
    | { code: "chain_rating"; chain: ChainSize; rating_W: number; rating_wanted_W: number }
    /** So far between centres. */
    | { code: "sprockets_touch"; centres_m: number }
    /** Round the small sprocket, and the centres that would give it enough. */
    | { code: "little_wrap"; wrap_deg: number; least_wrap_deg: number; least_centres_m: number }
    /** The sprocket on the axle, across the chain on it. */
    | { code: "below_rail"; driven_across_m: number; wheel_diameter_m: number }
  );

/** Something wrong with a choice of sprockets: a fixed code and its numbers. */
export type Fault =
  | ChainFault
  /** Gradients with curves: the steepest it starts on, below 0 where that is not the level, and the worst here. */
  | {
      code: "no_restart";
      restart_gradient_percent: number;
      ruling_gradient_percent: number;
      limited_by: Restart["limited_by"];
      pull_N: number;
    }
  | { code: "motor_current"; rms_motor_current_A: number; continuous_current_A: number }
  | { code: "too_hot"; peak_winding_temperature_C: number; limit_temperature_C: number }
  | { code: "not_completed"; outcome: Outcome; ending: Event };

/** It must start again at the worst place with the load it has. */
export function restartFault({ sine, ruling, limited_by, pull_N }: Restart): Fault[] {
  if (sine >= ruling) return [];
  const percents = { restart_gradient_percent: 100 * sine, ruling_gradient_percent: 100 * ruling };
  return [{ code: "no_restart", ...percents, limited_by, pull_N }];
}

/** The rms of the working must be what the motor stands for ever. */
export const currentFault = (rms_motor_current_A: number, continuous_current_A: number): Fault[] =>
  rms_motor_current_A <= continuous_current_A
    ? []
    : [{ code: "motor_current", rms_motor_current_A, continuous_current_A }];

export const heatFault = (peak_winding_temperature_C: number, limit_temperature_C: number): Fault[] =>
  peak_winding_temperature_C <= limit_temperature_C
    ? []
    : [{ code: "too_hot", peak_winding_temperature_C, limit_temperature_C }];

/** Ends of a working that other gears might have spared it. */
const DEFEATS: readonly Outcome[] = ["stalled", "slipping", "tripped", "ran_away", "burnt_out"];

export const workingFault = (outcome: Outcome, ending: Event | undefined): Fault[] =>
  ending && DEFEATS.includes(outcome) ? [{ code: "not_completed", outcome, ending }] : [];

/** What is wrong with a chain, its sprockets and its layout. */
export function chainFaults(row: ChainRow, asked_m: number | undefined): ChainFault[] {
  const { teeth, chain, margin, rating_W, rating_wanted_W, wrap_deg, least_centres_m, peak_tension_N } = row;
  const [driving_teeth, driven_teeth] = teeth;
  const stage = { driving_teeth, driven_teeth };
  const ratio = Math.max(driving_teeth / driven_teeth, driven_teeth / driving_teeth);
  const faults: ChainFault[] = [];
  if (Math.min(...teeth) < FEWEST_TEETH) faults.push({ code: "few_teeth", ...stage, least_teeth: FEWEST_TEETH });
  if (Math.max(...teeth) > MOST_TEETH) faults.push({ code: "many_teeth", ...stage, most_teeth: MOST_TEETH });
  if (ratio > MOST_RATIO) faults.push({ code: "stage_ratio", ...stage, ratio, most_ratio: MOST_RATIO });
  if (margin !== null && margin < LEAST_MARGIN)
    faults.push({ code: "chain_margin", ...stage, chain, peak_tension_N, margin, least_margin: LEAST_MARGIN });
  if (rating_W !== null && rating_W < rating_wanted_W)
    faults.push({ code: "chain_rating", ...stage, chain, rating_W, rating_wanted_W });
  if (asked_m !== undefined && row.centres_m === null) {
    faults.push({ code: "sprockets_touch", ...stage, centres_m: asked_m });
  } else if (wrap_deg !== null && wrap_deg * (Math.PI / 180) < LEAST_WRAP_rad) {
    const least_wrap_deg = LEAST_WRAP_rad * (180 / Math.PI);
    faults.push({ code: "little_wrap", ...stage, wrap_deg, least_wrap_deg, least_centres_m });
  }
  return faults;
}

/** A sprocket on the axle must stay within the wheel, or it fouls the rail. */
export function belowRail({ teeth, driven_across_m }: ChainRow, radius_m: number): ChainFault[] {
  if (driven_across_m < 2 * radius_m) return [];
  const [driving_teeth, driven_teeth] = teeth;
  return [{ code: "below_rail", driving_teeth, driven_teeth, driven_across_m, wheel_diameter_m: 2 * radius_m }];
}
