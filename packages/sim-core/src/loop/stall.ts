import { shown } from "../errors.js";
import { secondsToTrip } from "../parts/breaker.js";
import { secondsToLimit } from "../parts/heat.limit.js";
import { coolingShare, loopGain } from "../parts/heat.nodes.js";
import type { LimitedBy } from "../state.js";
import * as at from "../state.js";
import type { Stall, Working } from "../working.js";

export function stallOf(w: Working): Stall {
  const { now, train, y } = w;
  const trip_s = secondsToTrip(train.breaker, now.battery_A, y[at.BREAKER]);
  const copper20_W = train.motor.resistance20_ohm * now.motor_A ** 2;
  const spinning = w.mode.wheels !== 0;
  const motor_radps = spinning ? (y[at.RIM_SPEED] * train.gears.ratio) / train.radius_m : 0;
  const cooled = coolingShare(train.heat, motor_radps);
  const load = { copper20_W, brush_W: now.brush_V * now.motor_A, drag_W: 0, cooled };
  const tooHot_s = secondsToLimit(train.heat, load, y[at.WINDING], y[at.CASE], w.air_degC);
  return {
    limited_by: spinning || (w.minding && now.limitedBy === "lever") ? "adhesion" : now.limitedBy,
    spinning,
    // Brakes that hold it meanwhile are let off before it starts: they count neither way.
    pull_N: spinning ? now.contact_N : now.rim_N,
    needed_N: now.gravity_N + now.air_N + train.breakaway_N + now.curves_N,
    grip_N: now.staticGrip_N,
    motor_current_A: now.motor_A,
    battery_current_A: now.battery_A,
    trip_s: trip_s === Number.POSITIVE_INFINITY ? null : trip_s,
    too_hot_s: tooHot_s === Number.POSITIVE_INFINITY ? null : tooHot_s,
    thermal_runaway: loopGain(train.heat, copper20_W, cooled) >= 1,
  };
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
  const held = `${found}; held back by: ${stall.spinning ? "the wheels spin" : WHY[stall.limited_by]}`;
  return stall.thermal_runaway
    ? `${held}; at this current the motor's heat runs away: hotter copper makes more of it`
    : held;
}
