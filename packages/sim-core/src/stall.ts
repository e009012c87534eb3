import { shown } from "./errors.js";
import { leavingForwards_N } from "./motion.js";
import { root } from "./numeric/roots.js";
import { secondsToTrip } from "./parts/breaker.js";
import { windingAfter_degC } from "./parts/heat.nodes.js";
import type { LimitedBy } from "./state.js";
import * as at from "./state.js";
import type { Working } from "./working.js";

/** Why a train stands with the lever open, and how long it may. */
export interface Stall {
  limited_by: LimitedBy;
  /** Do the wheels spin? */
  spinning: boolean;
  /** Pull at the driven rims. */
  pull_N: number;
  /** What it would take to start: gravity, wind, and what holds a standing train. */
  needed_N: number;
  grip_N: number;
  motor_current_A: number;
  battery_current_A: number;
  /** Until breaker or fuse trips with the lever held; null where it holds. */
  trip_s: number | null;
  /** Until the winding is at the limit of its class; null where it settles below. */
  too_hot_s: number | null;
}

const LONGEST_s = 86400;

export function stallOf(w: Working): Stall {
  const { now, train } = w;
  const trip_s = secondsToTrip(train.breaker, now.battery_A, w.y[at.BREAKER]);
  return {
    limited_by: w.mode.wheels !== 0 || (w.minding && now.limitedBy === "lever") ? "adhesion" : now.limitedBy,
    spinning: w.mode.wheels !== 0,
    pull_N: now.contact_N,
    needed_N: now.contact_N - leavingForwards_N(w) + now.hold_N,
    grip_N: now.staticGrip_N,
    motor_current_A: now.motor_A,
    battery_current_A: now.battery_A,
    trip_s: Number.isFinite(trip_s) ? trip_s : null,
    too_hot_s: secondsToLimit(w),
  };
}

function secondsToLimit(w: Working): number | null {
  const { now, train, y } = w;
  const { heat, motor } = train;
  const load = { copper20_W: motor.resistance20_ohm * now.motor_A ** 2, brush_W: now.brush_V * now.motor_A, drag_W: 0 };
  const left_K = (time_s: number) =>
    heat.limit_degC - windingAfter_degC(heat, load, y[at.WINDING], y[at.CASE], w.air_degC, time_s);
  if (left_K(0) <= 0) return 0;
  return left_K(LONGEST_s) > 0 ? null : root(left_K, 0, LONGEST_s, 0.01);
}

const WHY: Record<LimitedBy, string> = {
  lever: "the lever is not far enough open",
  motor_current: "the controller's motor current limit",
  battery_current: "the controller's battery current limit",
  duty: "full lever: the motor takes all the volts there are",
  adhesion: "the driver minds the grip of the driven wheels",
  battery: "the battery gives no more",
  no_load_speed: "the motor takes no current",
  plugging: "it is being driven backwards",
};

/** The stall in one line of the log. */
export function stallInWords(stall: Stall): string {
  const found = `pulls ${shown(stall.pull_N, "N")} of the ${shown(stall.needed_N, "N")} it takes to start, with ${shown(stall.motor_current_A, "A")} in the motor`;
  return `${found}; held back by: ${stall.spinning ? "the wheels spin" : WHY[stall.limited_by]}`;
}
