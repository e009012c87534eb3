import type { Stall } from "../event.js";
import { secondsToTrip } from "../parts/breaker.js";
import { secondsToLimit } from "../parts/heat.limit.js";
import { coolingShare, loopGain } from "../parts/heat.nodes.js";
import * as at from "../state.js";
import type { Working } from "../working.js";

/** Why the train stands as it now does. */
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
