import { RunError } from "../errors.js";
import * as at from "../state.js";
import { chainage_m, moveLever, shutLever, type Working } from "../working.js";
import { STOP_WITHIN_m } from "./approach.js";
import { targetSpeed_mps } from "./driver.js";
import { brakeAll, holdOn } from "./hands.js";
import { DRIVER_s } from "./lever.js";
import { arrive } from "./marks.js";

/** What a driver sees from the seat: one object for the whole working, whose figures are those of the moment. */
export interface Seen {
  readonly time_s: number;
  /** Negative while it rolls back. */
  readonly speed_mps: number;
  /** Of the head, from the first post. */
  readonly chainage_m: number;
  /** The lap that is being run, from 1. */
  readonly lap: number;
  /** The least of the plan's speed and every limit under the train; Infinity where there is neither. */
  readonly limit_mps: number;
  /** To where it must stand next, within half a metre: a stop of the plan, or the end of the line; Infinity where nowhere. */
  readonly toStop_m: number;
  /** Where the lever has come to; it takes the controller's ramp to get to where it is wanted. */
  readonly lever: number;
  readonly motor_A: number;
  readonly battery_A: number;
  readonly battery_V: number;
}

/** What a driver does with both hands. */
export interface Move {
  /** Wanted of the controller: 0 shut, 1 full; below 0 the motor brakes, where it can. */
  readonly lever: number;
  /** Share of every service brake in the driver's hands that is wanted on; none where absent. */
  readonly brake?: number;
}

/** Looks up every tenth of a second and says where the lever should be, or lever and brakes. */
export type Driver = (seen: Seen) => number | Move;

/**
 * A driver of the user's own in the seat. How to come to a stop is his affair; once he stands there the train is held for
 * him until its time is over.
 */
export function seated(driver: Driver): (w: Working) => void {
  const seats = new WeakMap<Working, Seen>();
  return (w) => {
    w.approach = undefined;
    if (standsAtStop(w)) arrive(w);
    if (w.due_s.dwell < Number.POSITIVE_INFINITY) {
      shutLever(w);
      holdOn(w);
      return;
    }
    const seen = seats.get(w) ?? seeing(w);
    seats.set(w, seen);
    const move = driver(seen);
    const { lever, brake = 0 } = typeof move === "number" ? { lever: move } : move;
    w.minding = false;
    moveLever(w, within(lever, -1, "lever"), DRIVER_s);
    brakeAll(w, within(brake, 0, "brake"));
  };
}

const standsAtStop = ({ mode, stop, y, due_s }: Working): boolean =>
  mode.train === 0 &&
  stop !== undefined &&
  Math.abs(stop.at_m - y[at.POSITION]) <= STOP_WITHIN_m &&
  due_s.dwell === Number.POSITIVE_INFINITY;

function within(wanted: number, least: number, what: string): number {
  if (Number.isNaN(wanted) || typeof wanted !== "number")
    throw new RunError(`the driver wants the ${what} at ${wanted}`);
  return Math.min(1, Math.max(least, wanted));
}

const seeing = (w: Working): Seen => ({
  get time_s() {
    return w.time_s;
  },
  get speed_mps() {
    return w.y[at.SPEED];
  },
  get chainage_m() {
    return chainage_m(w);
  },
  get lap() {
    return w.lapsDone + 1;
  },
  get limit_mps() {
    const limit_mps = targetSpeed_mps(w);
    return Number.isNaN(limit_mps) ? Number.POSITIVE_INFINITY : limit_mps;
  },
  get toStop_m() {
    return w.stop ? w.stop.at_m - w.y[at.POSITION] : Number.POSITIVE_INFINITY;
  },
  get lever() {
    return w.lever;
  },
  get motor_A() {
    return w.now.motor_A;
  },
  get battery_A() {
    return w.now.battery_A;
  },
  get battery_V() {
    return w.now.terminal_V;
  },
});
