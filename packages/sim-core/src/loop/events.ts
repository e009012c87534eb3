import { leverSettled } from "../driver/driver.js";
import { leewayAt_m } from "../driver/leeway.js";
import { arrive, leaveStop, overrun, reachMark } from "../driver/marks.js";
import { RunError } from "../errors.js";
import { BURNT_OUT_degC, fillMargins, MARGINS, type MarginName } from "../margins.js";
import { motion } from "../motion.js";
import * as at from "../state.js";
import { type Due, end, log, shutLever, type Working } from "../working.js";
import { stallOf } from "./stall.js";

/** More changes than this at one instant are a fault of ours: modes that chase each other. */
const MOST_AT_ONCE = 20;
/** After so many rollbacks it is not the ramp that was too slow. */
const MOST_ROLLBACKS = 3;
/** So far may the tail roll back beyond the first post of a line: the rail goes on a little. */
const OFF_THE_END_m = 0.5;

/**
 * After every discrete change all margins are looked at again; one already negative acts at once, until none is left.
 * `margins`, `w.now` and the derivative are then true of the state as it stands.
 * @returns false where the working has ended, and they may not be
 */
export function settle(w: Working, margins: Float64Array, dydt: Float64Array): boolean {
  let acted: string[] | undefined;
  while (w.outcome === undefined) {
    motion(w, dydt, w.y, w.time_s);
    fillMargins(w, w.y, margins);
    const first = firstNegative(margins);
    if (first < 0) return true;
    acted ??= [];
    acted.push(MARGINS[first]);
    if (acted.length > MOST_AT_ONCE)
      throw new RunError(`events chase each other at ${w.time_s} s: ${acted.join(", ")}`);
    EFFECTS[MARGINS[first]](w);
  }
  return false;
}

/** The first margin that is below nothing; -1 where none is. */
export function firstNegative(margins: Float64Array): number {
  for (let i = 0; i < margins.length; i++) if (margins[i] < 0) return i;
  return -1;
}

/** What each event changes. An effect changes the mode and the log, and sets to rest what has come to rest. */
const EFFECTS: Record<MarginName, (w: Working) => void> = {
  train_stops_mps: stop,
  leaves_forwards_N: (w) => leave(w, 1),
  leaves_backwards_N: (w) => leave(w, -1),
  grip_N: slip,
  wheels_grip_again_mps: grip,
  rim_stops_mps: stopRim,
  rim_turns_forwards_N: (w) => {
    w.mode.rim = 1;
  },
  rim_turns_backwards_N: (w) => {
    w.mode.rim = -1;
  },
  axles_lock_N: (w) => lockAxles(w),
  axles_turn_again_N: (w) => lockAxles(w),
  gets_away_mps2: stop,
  approach_Jpkg: (w) => {
    const leeway_m = leewayAt_m(w);
    w.stopping = true;
    shutLever(w);
    log(w, { kind: "shuts_off", speed_mps: w.y[at.SPEED], leeway_m });
  },
  mark_m: reachMark,
  overruns_m: overrun,
  rolled_a_lap_m: (w) => end(w, { kind: "ran_away", by: "ran_away", speed_mps: -w.y[at.SPEED] }),
  cutout_V: (w) => startTimer(w, "cutout", w.train.controller.cutoutDelay_s),
  cutout_clears_V: (w) => stopTimer(w, "cutout"),
  empty_C: (w) => end(w, { kind: "flat", by: "empty" }),
  battery_full_C: (w) => {
    w.mode.full = true;
    log(w, { kind: "battery_full" });
  },
  battery_has_room_C: (w) => {
    w.mode.full = false;
  },
  breaker_heating: (w) => trip(w, "thermal"),
  breaker_magnetic_A: (w) => trip(w, "magnetic"),
  switch_breaks_A: (w) => {
    const { name, breaks_A } = w.train.breaking[w.switchesPassed++];
    log(w, { kind: "beyond_switch", switch: name, battery_current_A: w.now.battery_A, breaks_A });
  },
  protection_current_A: (w) => startTimer(w, "overcurrent", w.train.protection.delay_s),
  protection_current_clears_A: (w) => stopTimer(w, "overcurrent"),
  protection_low_V: (w) => startTimer(w, "lowVoltage", w.train.protection.delay_s),
  protection_low_clears_V: (w) => stopTimer(w, "lowVoltage"),
  winding_degC: (w) => {
    w.tooHot = true;
    log(w, { kind: "too_hot", limit_temperature_C: w.train.heat.limit_degC });
  },
  excitation_V: (w) => {
    w.mode.excited = !w.mode.excited;
  },
  burns_out_degC: (w) => end(w, { kind: "burnt_out", by: "burnt_out", winding_temperature_C: BURNT_OUT_degC }),
};

function stop(w: Working): void {
  w.y[at.SPEED] = 0;
  w.mode.train = 0;
  w.mode.locked.fill(0);
  if (w.mode.wheels === 0) {
    w.y[at.RIM_SPEED] = 0;
    w.mode.rim = 0;
  } else if (w.mode.rim === 0) {
    w.mode.wheels = 0;
  }
  log(w, { kind: "at_rest" });
  if (w.beaten) end(w, { kind: "stalled", by: "stalled", rolled_back: true, ...(w.stall ?? stallOf(w)) });
  if (w.stopping) arrive(w);
}

function leave(w: Working, way: 1 | -1): void {
  w.mode.train = way;
  if (w.mode.wheels === 0) w.mode.rim = way;
  if (way > 0) {
    log(w, { kind: "starts", motor_current_A: w.now.motor_A });
    return;
  }
  w.rollbacks++;
  w.beaten = leverSettled(w) || w.rollbacks >= MOST_ROLLBACKS;
  w.stall = stallOf(w);
  w.runawayMark_m = w.track.kind === "circuit" ? w.y[at.POSITION] - w.track.length_m : w.train.length_m - OFF_THE_END_m;
  log(w, { kind: "rolls_back", gravity_N: w.now.gravity_N });
}

function slip(w: Working): void {
  const way = w.now.contact_N > 0 ? 1 : -1;
  w.mode.wheels = way;
  if (w.mode.rim === 0) w.mode.rim = way;
  log(w, { kind: "slips", asked_N: Math.abs(w.now.contact_N), grip_N: w.now.staticGrip_N });
}

function grip(w: Working): void {
  w.y[at.RIM_SPEED] = w.y[at.SPEED];
  w.mode.wheels = 0;
  w.mode.rim = w.mode.train;
  log(w, { kind: "grips" });
}

function stopRim(w: Working): void {
  w.y[at.RIM_SPEED] = 0;
  w.mode.rim = 0;
  if (w.mode.train === 0) w.mode.wheels = 0;
}

/** Axles lock where the brake asks more than their static grip, and turn again where it asks less than the sliding. */
function lockAxles(w: Working): void {
  const { train, mode, axleBrake_N } = w;
  for (let v = 0; v < mode.locked.length; v++) {
    const { static: held, sliding } = train.adhesion;
    const locks = mode.locked[v]
      ? axleBrake_N[v] >= sliding * train.brakedAxles_N[v]
      : axleBrake_N[v] > held * train.brakedAxles_N[v];
    if (locks === (mode.locked[v] === 1)) continue;
    mode.locked[v] = locks ? 1 : 0;
    log(w, { kind: locks ? "axles_lock" : "axles_turn", vehicle: w.plan.train.vehicles[v].name });
  }
}

function trip(w: Working, element: "thermal" | "magnetic"): void {
  const { kind: device, rating_A } = w.train.breaker;
  w.mode.connected = false;
  end(w, { kind: "tripped", by: "breaker", device, rating_A, element, battery_current_A: w.now.battery_A });
}

function startTimer(w: Working, due: Due, delay_s: number): void {
  w.due_s[due] = w.time_s + delay_s;
}

function stopTimer(w: Working, due: Due): void {
  w.due_s[due] = Number.POSITIVE_INFINITY;
}

/** The earliest time at which something is due, Infinity when nothing is. */
export const nextDue_s = ({ due_s }: Working): number =>
  Math.min(due_s.cutout, due_s.overcurrent, due_s.lowVoltage, due_s.dwell, due_s.act, due_s.duration);

/** Acts on every timer that has run out. */
export function actOnDues(w: Working): void {
  if (w.time_s >= w.due_s.dwell) leaveStop(w);
  if (w.time_s >= w.due_s.act) {
    w.due_s.act = Number.POSITIVE_INFINITY;
    w.act?.(w);
  }
  if (w.time_s >= w.due_s.duration) end(w, { kind: "completed", by: "duration" });
  const { controller, protection } = w.train;
  if (w.time_s >= w.due_s.cutout) {
    const { cutout_V: cutout_voltage_V, cutoutDelay_s: cutout_delay_s } = controller;
    end(w, { kind: "flat", by: "undervoltage", cutout_voltage_V, cutout_delay_s });
  }
  if (w.time_s >= w.due_s.overcurrent)
    end(w, { kind: "tripped", by: "battery_protection", limit_A: protection.current_A });
  if (w.time_s >= w.due_s.lowVoltage)
    end(w, { kind: "flat", by: "battery_protection", low_voltage_V: protection.low_V });
}
