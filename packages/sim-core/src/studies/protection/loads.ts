import { balancingSpeed_mps } from "../../drive/climbing.js";
import { gravity_N, pullAt, resistance_N } from "../../drive/pull.js";
import { root } from "../../numeric/roots.js";
import { secondsToTrip } from "../../parts/breaker.js";
import { secondsToLimit } from "../../parts/heat.limit.js";
import { coolingShare } from "../../parts/heat.nodes.js";
import { motorBrush_V } from "../../parts/motor.points.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { cold } from "../climb/climb.js";
import { steepest, waysOf } from "../ways.js";

/** The wheels held, the lever fully open, everything cold. */
export interface HeldStall {
  motor_current_A: number;
  battery_current_A: number;
  /** Share of the battery's volts on the motor: of the motor's current only this share is drawn from the battery. */
  duty: number;
  /** Until breaker or fuse trips; null where it holds. */
  trip_s: number | null;
  /** Until the winding is at the limit of its class; null where it settles below. */
  too_hot_s: number | null;
}

export function stallHeld(plan: Plan): HeldStall {
  const { train, air_degC } = plan;
  const { motor_A, battery_A, duty } = pullAt(train, cold(plan), 0);
  const load = {
    copper20_W: train.motor.resistance20_ohm * motor_A ** 2,
    brush_W: motorBrush_V(train.motor, motor_A) * motor_A,
    drag_W: 0,
    cooled: coolingShare(train.heat, 0),
  };
  return {
    motor_current_A: motor_A,
    battery_current_A: battery_A,
    duty,
    trip_s: orNull(secondsToTrip(train.breaker, battery_A)),
    too_hot_s: orNull(secondsToLimit(train.heat, load, air_degC, air_degC, air_degC)),
  };
}

/** Running steadily up the steepest place, curves counted in, in still air. */
export interface Climbing {
  gradient_percent: number;
  chainage_m: number;
  /** The plan's speed, or as fast as it gets there. */
  speed_mps: number;
  motor_current_A: number;
  battery_current_A: number;
  /** Until breaker or fuse trips, from cold, did the gradient last that long; null where it holds. */
  trip_s: number | null;
}

/**
 * Null where the train does not get up.
 * @param passed_N the most that comes through to the rail; what the driven wheels grip, unless told
 */
export function climbingOf(plan: Plan, passed_N?: number): Climbing | null {
  const conditions = cold(plan);
  const { share, chainage_m, way } = steepest(waysOf(plan), "compensated");
  const { train } = way;
  const open = Number.isNaN(plan.lever) ? 1 : plan.lever;
  const fastest_mps = balancingSpeed_mps(train, conditions, share, open, passed_N);
  if (fastest_mps === 0) return null;
  const speed_mps = Math.min(fastest_mps, Number.isNaN(plan.speed_mps) ? fastest_mps : plan.speed_mps);
  const lever = speed_mps < fastest_mps ? leverFor(train, plan, share, speed_mps) : open;
  const { motor_A, battery_A } = pullAt(train, conditions, speed_mps, lever);
  return {
    gradient_percent: 100 * share,
    chainage_m,
    speed_mps,
    motor_current_A: motor_A,
    battery_current_A: battery_A,
    trip_s: orNull(secondsToTrip(train.breaker, battery_A)),
  };
}

/**
 * The battery current that may last on the steepest place, on a rail that grips: a breaker is not chosen for a wet day. What
 * a motor draws that does not get up there, held at a stand, where that is all there is.
 */
export const lastingCurrent_A = (plan: Plan): number =>
  (climbingOf(plan, Number.POSITIVE_INFINITY) ?? stallHeld(plan)).battery_current_A;

/** How far the lever is open when the pull just meets what the gradient takes. */
function leverFor(train: Train, plan: Plan, sine: number, speed_mps: number): number {
  const needed_N = resistance_N(train, speed_mps) + gravity_N(train, sine);
  const short_N = (lever: number) => pullAt(train, cold(plan), speed_mps, lever).rim_N - needed_N;
  return short_N(1) <= 0 ? 1 : root(short_N, 0, 1);
}

const orNull = (time_s: number): number | null => (time_s === Number.POSITIVE_INFINITY ? null : time_s);
