import { driveOn } from "../../driver/driver.js";
import { DRIVER_s } from "../../driver/lever.js";
import type { Observer } from "../../loop/stepper.js";
import { wantBrake } from "../../parts/brakes.application.js";
import { run } from "../../run.js";
import * as at from "../../state.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { breakOff, moveLever, shutLever, type Working } from "../../working.js";
import { finerUntilClosed } from "../finer.js";
import { withoutDrag } from "../safe.js";
import type { Way } from "../ways.js";
import { actsAfter_s, type BrakeSet, inSet, type Rail, trainToStop } from "./sets.js";

/** A train on its way along the line, made ready to be stopped again and again with one set of brakes. */
export interface ToStop {
  readonly way: Way<Train>;
  readonly set: BrakeSet;
  readonly rail: Rail;
  readonly plan: Plan;
  readonly step_s: number;
  /** How long after the driver acts each brake is put on, s; NaN where it is not. Absent: those of the set. */
  readonly after_s?: readonly number[];
  /** Whoever looks on besides. */
  readonly lookingOn?: Observer;
}

/** Where it does not stop: does it run on past all reason, or come to a stand and roll back past where the driver acted? */
export type StopOutcome = "stops" | "runs_on" | "rolls_back";

/** How one stop went. Distance and time count from the moment the driver should act. */
export interface Stopped {
  stops: boolean;
  outcome: StopOutcome;
  /** To the furthest place its head came to, should it have rolled back a little; null where it does not stop. */
  distance_m: number | null;
  /** Until it stood for good. */
  time_s: number | null;
  peak_deceleration_mps2: number;
  top_speed_mps: number;
  /** Did wheels that were braked, driven or not, lock or slide? */
  wheels_locked: boolean;
  /** Was the battery too full to go on braking with the motor? */
  battery_full: boolean;
  /** Most that it asked of the driven wheels' grip, as a share of the load on them. */
  grip_used: number;
}

/** A train that still moves after this long does not stop, s. */
const GIVE_UP_s = 600;

export function toStop(plan: Plan, way: Way<Train>, set: BrakeSet, rail: Rail, step_s: number): ToStop {
  const { track, wind_mps } = way;
  const train = trainToStop(way.train, set, rail.adhesion);
  const duration_s = Number.POSITIVE_INFINITY;
  return { way, set, rail, step_s, plan: { ...plan, train, track, wind_mps, stops: [], duration_s } };
}

export const withNoDrag = (ready: ToStop): ToStop => ({
  ...ready,
  plan: { ...ready.plan, train: withoutDrag(ready.plan.train) },
});

/**
 * One stop: through the reaction time the working goes on with every brake off, then power off and the set on.
 * @param along_m head of the train when the driver should act; @param within_m it is given up beyond this
 */
export const stopFrom = (
  ready: ToStop,
  along_m: number,
  speed_mps: number,
  within_m = Number.POSITIVE_INFINITY,
): Stopped => finerUntilClosed(ready.step_s, (step_s) => stopOnce({ ...ready, step_s }, along_m, speed_mps, within_m));

function stopOnce(ready: ToStop, along_m: number, speed_mps: number, within_m: number): Stopped {
  const { plan, set, way, step_s } = ready;
  const { seen, observer } = watch(along_m, speed_mps);
  const after_s =
    ready.after_s ?? plan.train.brakes.map((brake) => (inSet(set, brake) ? actsAfter_s(brake) : Number.NaN));
  const putOn = (w: Working) =>
    after_s.forEach((each_s, i) => {
      if (w.time_s >= plan.reaction_s + each_s) wantBrake(w.train.brakes, w.application, i, 1, w.time_s);
    });
  let acted = false;
  const act = (w: Working) => {
    acted = true;
    shutLever(w);
    if (set === "electric")
      w.train = { ...w.train, controller: { ...w.train.controller, ramp_s: way.train.controller.ramp_s } };
    putOn(w);
  };
  const driver = (w: Working) => {
    // To and fro in a dip is not yet a train that has been beaten.
    w.rollbacks = 0;
    if (!acted) {
      driveOn(w);
      if (w.lever < 0) shutLever(w);
    } else {
      putOn(w);
      if (w.mode.train === 0) breakOff(w, "completed");
      else if (set === "electric") moveLever(w, -1, DRIVER_s);
    }
    const ahead_m = w.y[at.POSITION] - along_m;
    const left = w.track.kind === "end-to-end" && w.y[at.POSITION] > w.track.length_m;
    seen.behind = ahead_m < 0;
    if (left || seen.behind || ahead_m > within_m || seen.lapped || w.time_s > GIVE_UP_s) breakOff(w, "ran_away");
  };
  const w = run(plan, {
    step_s,
    laps: Number.POSITIVE_INFINITY,
    runsOn: true,
    start: { chainage_m: along_m, speed_mps, held: true },
    driver,
    act: { time_s: plan.reaction_s, does: act },
    observers: ready.lookingOn ? [observer, ready.lookingOn] : [observer],
  });
  const leaves = w.track.kind === "end-to-end" && along_m + seen.ahead_m > w.track.length_m;
  const stops = w.outcome === "completed" && w.endedBy === undefined && seen.ahead_m <= within_m && !leaves;
  return {
    stops,
    outcome: stops ? "stops" : seen.behind ? "rolls_back" : "runs_on",
    distance_m: stops ? seen.ahead_m : null,
    time_s: stops ? seen.rest_s : null,
    peak_deceleration_mps2: seen.peak_mps2,
    top_speed_mps: seen.top_mps,
    wheels_locked: seen.locked,
    battery_full: set === "electric" && w.mode.full,
    grip_used: seen.grip,
  };
}

/** Looks on: how far, how fast, how hard, whether wheels lock, and whether a whole lap has not slowed it. */
function watch(from_m: number, speed_mps: number) {
  const seen = {
    ahead_m: 0,
    rest_s: 0,
    peak_mps2: 0,
    top_mps: speed_mps,
    locked: false,
    lapped: false,
    behind: false,
    grip: 0,
  };
  const look = ({ mode, now }: Working) => {
    if (mode.train > 0) seen.peak_mps2 = Math.max(seen.peak_mps2, -now.acceleration_mps2);
    seen.grip = Math.max(seen.grip, Math.abs(now.contact_N) / Math.max(1, now.onDrivers_N));
    seen.locked ||= mode.train !== 0 && (mode.wheels === -mode.train || mode.locked.includes(1));
  };
  const observer: Observer = {
    step(w, _from_s, from) {
      const { y, track } = w;
      seen.ahead_m = Math.max(seen.ahead_m, y[at.POSITION] - from_m);
      seen.top_mps = Math.max(seen.top_mps, y[at.SPEED]);
      look(w);
      const lap_m = from_m + track.length_m;
      if (track.kind !== "circuit" || from[at.POSITION] >= lap_m || y[at.POSITION] < lap_m) return;
      const share = (lap_m - from[at.POSITION]) / (y[at.POSITION] - from[at.POSITION]);
      seen.lapped = from[at.SPEED] + share * (y[at.SPEED] - from[at.SPEED]) >= speed_mps;
    },
    change: look,
    event(w) {
      if (w.mode.train === 0) seen.rest_s = w.time_s;
    },
  };
  return { seen, observer };
}
