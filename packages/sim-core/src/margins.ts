import { approachMargin_Jpkg, STOP_WITHIN_m } from "./driver/approach.js";
import { leavingBackwards_N, leavingForwards_N, rimBackwards_N, rimForwards_N } from "./loop/standing.js";
import { ROOM_FILL } from "./parts/battery.data.js";
import * as at from "./state.js";
import type { Working } from "./working.js";

/**
 * How far from each event: positive until it happens. Filled after each step from the state and from what the
 * derivative left in `now`; what cannot happen in the present mode is Infinity.
 */
export const MARGINS = [
  "train_stops_mps",
  "leaves_forwards_N",
  "leaves_backwards_N",
  "grip_N",
  "wheels_grip_again_mps",
  "rim_stops_mps",
  "rim_turns_forwards_N",
  "rim_turns_backwards_N",
  "axles_lock_N",
  "axles_turn_again_N",
  "gets_away_mps2",
  "approach_Jpkg",
  "mark_m",
  "overruns_m",
  "rolled_a_lap_m",
  "cutout_V",
  "cutout_clears_V",
  "empty_C",
  "battery_full_C",
  "battery_has_room_C",
  "breaker_heating",
  "breaker_magnetic_A",
  "switch_breaks_A",
  "protection_current_A",
  "protection_current_clears_A",
  "protection_low_V",
  "protection_low_clears_V",
  "winding_degC",
  "excitation_V",
  "burns_out_degC",
] as const;

export type MarginName = (typeof MARGINS)[number];
const index = Object.fromEntries(MARGINS.map((name, i) => [name, i])) as Record<MarginName, number>;

const TRAIN_STOPS = index.train_stops_mps;
const LEAVES_FORWARDS = index.leaves_forwards_N;
const LEAVES_BACKWARDS = index.leaves_backwards_N;
const GRIP = index.grip_N;
const GRIPS_AGAIN = index.wheels_grip_again_mps;
const RIM_STOPS = index.rim_stops_mps;
const RIM_TURNS_FORWARDS = index.rim_turns_forwards_N;
const RIM_TURNS_BACKWARDS = index.rim_turns_backwards_N;
const LOCK = index.axles_lock_N;
const TURN_AGAIN = index.axles_turn_again_N;
const GETS_AWAY = index.gets_away_mps2;
const APPROACH = index.approach_Jpkg;
const MARK = index.mark_m;
const OVERRUN = index.overruns_m;
const ROLLED_A_LAP = index.rolled_a_lap_m;
const CUTOUT = index.cutout_V;
const CUTOUT_CLEARS = index.cutout_clears_V;
const EMPTY = index.empty_C;
const FULL = index.battery_full_C;
const HAS_ROOM = index.battery_has_room_C;
const BREAKER_HEATING = index.breaker_heating;
const BREAKER_MAGNETIC = index.breaker_magnetic_A;
const SWITCH_BREAKS = index.switch_breaks_A;
const OVERCURRENT = index.protection_current_A;
const OVERCURRENT_CLEARS = index.protection_current_clears_A;
const LOW_VOLTAGE = index.protection_low_V;
const LOW_VOLTAGE_CLEARS = index.protection_low_clears_V;
const TOO_HOT = index.winding_degC;
const EXCITATION = index.excitation_V;
const BURNS_OUT = index.burns_out_degC;

/** Less than this is no acceleration. */
const ROUNDING_mps2 = 1e-9;
/** Rolling back as fast as this, or off the line, or a whole lap, a train has run away. */
const RUNAWAY_mps = 20;
/** Insulation, solder and magnets are gone by then, and with them all that is known of the motor (from memory). */
export const BURNT_OUT_degC = 400;

export function fillMargins(w: Working, y: Float64Array, margins: Float64Array): void {
  margins.fill(Number.POSITIVE_INFINITY);
  motionMargins(w, y, margins);
  electricalMargins(w, y, margins);
}

function motionMargins(w: Working, y: Float64Array, margins: Float64Array): void {
  const { mode, now, train, axleBrake_N } = w;
  const speed_mps = y[at.SPEED];
  const rim_mps = y[at.RIM_SPEED];
  if (mode.train === 0) {
    margins[LEAVES_FORWARDS] = now.hold_N - leavingForwards_N(w);
    margins[LEAVES_BACKWARDS] = now.hold_N - leavingBackwards_N(w);
  } else {
    margins[TRAIN_STOPS] = mode.train * speed_mps;
    // Wheels that slip and axles that lock as it starts may leave too little to move it.
    if (speed_mps === 0) margins[GETS_AWAY] = mode.train * now.acceleration_mps2 + ROUNDING_mps2;
  }
  if (mode.wheels === 0) {
    margins[GRIP] = now.staticGrip_N - Math.abs(now.contact_N);
  } else {
    margins[GRIPS_AGAIN] = mode.wheels * (rim_mps - speed_mps);
    if (mode.rim === 0) {
      margins[RIM_TURNS_FORWARDS] = now.contact_N - rimForwards_N(w) + now.brakeRim_N;
      margins[RIM_TURNS_BACKWARDS] = rimBackwards_N(w) - now.contact_N + now.brakeRim_N;
    } else {
      margins[RIM_STOPS] = mode.rim * rim_mps;
    }
  }
  if (mode.train !== 0 && train.brakes.length > 0) {
    for (let v = 0; v < mode.locked.length; v++) {
      const toLock_N = train.adhesion.static * train.brakedAxles_N[v] - axleBrake_N[v];
      const toTurn_N = axleBrake_N[v] - train.adhesion.sliding * train.brakedAxles_N[v];
      if (mode.locked[v]) margins[TURN_AGAIN] = Math.min(margins[TURN_AGAIN], toTurn_N);
      else margins[LOCK] = Math.min(margins[LOCK], toLock_N);
    }
  }
  if (w.approach && w.stop && !w.stopping && mode.train > 0) {
    margins[APPROACH] = approachMargin_Jpkg(w, w.approach, w.stop.at_m, y);
  }
  // A stop at the end of a lap ends the lap when the train stands.
  const stopAtMark = w.stop !== undefined && Math.abs(w.stop.at_m - w.mark_m) < STOP_WITHIN_m;
  if (w.track.kind === "circuit" && !stopAtMark) margins[MARK] = w.mark_m - y[at.POSITION];
  if (w.stop) margins[OVERRUN] = w.stop.at_m + STOP_WITHIN_m - y[at.POSITION];
  if (mode.train < 0) {
    margins[ROLLED_A_LAP] = Math.min(y[at.POSITION] - w.runawayMark_m, RUNAWAY_mps + speed_mps);
  }
}

function electricalMargins(w: Working, y: Float64Array, margins: Float64Array): void {
  const { train, now, mode, due_s } = w;
  const { controller, protection, breaker } = train;
  if (mode.connected) {
    if (controller.cutout_V > 0 && mode.powered) {
      if (due_s.cutout === Number.POSITIVE_INFINITY) margins[CUTOUT] = now.supply_V - controller.cutout_V;
      else margins[CUTOUT_CLEARS] = controller.cutoutClears_V - now.supply_V;
    }
    margins[EMPTY] = y[at.AVAILABLE];
    if (mode.full) margins[HAS_ROOM] = y[at.AVAILABLE] - ROOM_FILL * train.availableFull_C;
    else if (mode.braking) margins[FULL] = train.availableFull_C - y[at.AVAILABLE];
    margins[BREAKER_HEATING] = 1 - y[at.BREAKER];
    margins[BREAKER_MAGNETIC] = breaker.magnetic_A - now.battery_A;
    // Fed back, the current has to be broken as well.
    const weakest = train.breaking[w.switchesPassed];
    if (weakest !== undefined) margins[SWITCH_BREAKS] = weakest.breaks_A - Math.abs(now.battery_A);
    if (protection.fitted) {
      const over_A = protection.current_A - now.battery_A;
      const above_V = now.terminal_V - protection.low_V;
      if (due_s.overcurrent === Number.POSITIVE_INFINITY) margins[OVERCURRENT] = over_A;
      else margins[OVERCURRENT_CLEARS] = -over_A;
      if (due_s.lowVoltage === Number.POSITIVE_INFINITY) margins[LOW_VOLTAGE] = above_V;
      else margins[LOW_VOLTAGE_CLEARS] = -above_V;
    }
  }
  if (mode.powered) margins[EXCITATION] = now.excitation_V;
  margins[BURNS_OUT] = BURNT_OUT_degC - Math.max(y[at.WINDING], y[at.CASE]);
  if (!w.tooHot) margins[TOO_HOT] = train.heat.limit_degC - y[at.WINDING];
}
