import rk4 from "ode-rk4";
import { REMEDY, RunError, shown } from "../errors.js";
import { fillMargins, MARGINS } from "../margins.js";
import { motion } from "../motion.js";
import { nextBend_s } from "../parts/brakes.application.js";
import * as at from "../state.js";
import { format } from "../units/format.js";
import type { Working } from "../working.js";
import { driveBefore, lineAhead } from "./bends.js";
import { actOnDues, firstNegative, nextDue_s, settle } from "./events.js";
import { partsOfStep } from "./slipping.js";

/** An event is landed on within this, s. */
const LANDING_s = 1e-9;

/** Where pull and currents bend a step is ended within this share of it. */
const BENT_WITHIN = 1 / 64;

/**
 * More events than this in one second are modes that chase each other in time: a drive so stiff that it sticks and slips
 * by the millisecond. A driver who looks up ten times, and every braked axle, make some dozens.
 */
const MOST_A_SECOND = 1000;

/** Of more steps than this nobody waits for the end: a day takes two million, in a second or two. */
const MOST_STEPS = 30e6;
const tooLong = (time_s: number): string =>
  `after ${MOST_STEPS / 1e6} million steps ${format(time_s, "time", "metric")} of running are done, and more than that is not worked out: ask for less of it, or take a longer --step`;

/** Looks on and changes nothing. */
export interface Observer {
  /** After every step: where it began; the working stands at its end, still in the mode of the step. */
  step(w: Working, from_s: number, from: Float64Array, margins: Float64Array): void;
  /**
   * After every discrete change, all that follows from it made: the driver's moves, of which nothing is logged, and events.
   * The steps on either side do not show it: current leaps as the lever moves, and has fallen by the end of the next step.
   */
  change?(w: Working, margins: Float64Array): void;
  /** After every instant at which something happened, all changes made. */
  event(w: Working): void;
}

export interface Stepper {
  readonly margins: Float64Array;
  /** Looks at all margins again after a discrete change, such as the driver's moving the lever. */
  settle(): void;
  /** Carries the working on to a time, or to the first that is logged on the way; lands on every event. */
  advance(until_s: number): void;
}

export function createStepper(w: Working, observer: Observer): Stepper {
  const margins = new Float64Array(MARGINS.length);
  const fired = new Uint8Array(MARGINS.length);
  const from = new Float64Array(at.SIZE);
  const firstStage = new Float64Array(at.SIZE);
  let firstStageKnown = false;
  const line = lineAhead(w);
  const drive = driveBefore(w);
  let second = 0;
  let events = 0;
  let steps = 0;
  // The derivative at the end of a step, or after a change, where margins are looked at, is the first stage of the next.
  const integrator = rk4(
    w.y,
    (dydt, y, time_s) => {
      if (firstStageKnown) dydt.set(firstStage);
      else motion(w, dydt, y, time_s);
      firstStageKnown = false;
    },
    0,
    0,
  );

  /** One Runge-Kutta step; has a margin gone negative? */
  function tryStep(dt_s: number): boolean {
    integrator.t = w.time_s;
    integrator.dt = dt_s;
    integrator.step();
    motion(w, firstStage, w.y, w.time_s + dt_s);
    fillMargins(w, w.y, margins);
    return firstNegative(margins) >= 0;
  }

  /** The same from the copy. */
  function again(dt_s: number): boolean {
    w.y.set(from);
    firstStageKnown = false;
    return tryStep(dt_s);
  }

  /** The time by which pull and currents have bent, by halves. */
  function driveBends(whole_s: number): number {
    let before_s = 0;
    let after_s = whole_s;
    while (after_s - before_s > whole_s * BENT_WITHIN) {
      const middle_s = (before_s + after_s) / 2;
      again(middle_s);
      if (drive.hasBent()) after_s = middle_s;
      else before_s = middle_s;
    }
    return after_s;
  }

  /** The least of the margins that fired, after a step from the copy. */
  function leastFired(dt_s: number): number {
    if (dt_s > 0) again(dt_s);
    else {
      w.y.set(from);
      firstStageKnown = false;
      motion(w, firstStage, w.y, w.time_s);
      fillMargins(w, w.y, margins);
    }
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < margins.length; i++) if (fired[i] && margins[i] < least) least = margins[i];
    return least;
  }

  /** Re-steps from the copy to the earliest event, on its far side: Illinois, and halving where that is slow. */
  function land(whole_s: number): number {
    for (let i = 0; i < margins.length; i++) fired[i] = margins[i] < 0 ? 1 : 0;
    let beyond_s = whole_s;
    let beyond = leastFired(whole_s);
    let short_s = 0;
    let short = Math.max(0, leastFired(0));
    let side = 0;
    for (let tries = 0; beyond_s - short_s > LANDING_s; tries++) {
      const secant_s = short_s + ((beyond_s - short_s) * short) / (short - beyond);
      const dt_s =
        tries % 8 === 7
          ? (short_s + beyond_s) / 2
          : Math.min(Math.max(secant_s, short_s + LANDING_s / 4), beyond_s - LANDING_s / 4);
      const least = leastFired(dt_s);
      if (least < 0) {
        beyond_s = dt_s;
        beyond = least;
        if (side < 0) short /= 2;
        side = -1;
      } else {
        short_s = dt_s;
        short = least;
        if (side > 0) beyond /= 2;
        side = 1;
      }
    }
    leastFired(beyond_s);
    return beyond_s;
  }

  function stepTo(to_s: number): void {
    const start_s = w.time_s;
    if (++steps > MOST_STEPS) throw new RunError(tooLong(w.time_s));
    from.set(w.y);
    drive.keep();
    let landed = tryStep(to_s - start_s);
    if (drive.hasBent()) {
      to_s = start_s + driveBends(to_s - start_s);
      landed = again(to_s - start_s);
    }
    w.time_s = landed ? start_s + land(to_s - start_s) : to_s;
    firstStageKnown = !landed;
    if (landed) countEvent();
    observer.step(w, start_s, from, margins);
    if (landed) lookAgain();
  }

  function countEvent(): void {
    if (Math.floor(w.time_s) !== second) events = 0;
    second = Math.floor(w.time_s);
    if (++events <= MOST_A_SECOND) return;
    const last = w.events[w.events.length - 1]?.kind ?? "start";
    throw new RunError(
      `events follow each other without end at ${shown(w.time_s, "s")}, the last "${last}"; ${REMEDY}`,
    );
  }

  /** All margins after a change; whoever looks on is told if anything came of it. */
  function lookAgain(): void {
    const logged = w.events.length;
    firstStageKnown = settle(w, margins, firstStage);
    observer.change?.(w, margins);
    if (w.events.length > logged) observer.event(w);
  }

  // The driver looks first: he needs the workings of the start.
  motion(w, firstStage, w.y, w.time_s);
  return {
    margins,
    settle: lookAgain,
    advance(until_s) {
      const logged = w.events.length;
      while (w.time_s < until_s && w.outcome === undefined && w.events.length === logged) {
        const due_s = nextDue_s(w);
        const bend_s = Math.min(line.nextBend_s(), nextBend_s(w.train.brakes, w.application, w.time_s));
        stepTo(Math.min(until_s, due_s, bend_s, w.time_s + (until_s - w.time_s) / partsOfStep(w, until_s - w.time_s)));
        if (w.time_s < due_s) continue;
        actOnDues(w);
        lookAgain();
      }
    },
  };
}
