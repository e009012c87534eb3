import rk4 from "ode-rk4";
import { RunError } from "./errors.js";
import { actOnDues, nextDue_s, settle } from "./events.js";
import { fillMargins, MARGINS } from "./margins.js";
import { slowedBy_pkg } from "./meshes.js";
import { motion } from "./motion.js";
import { nextBend_s } from "./parts/brakes.application.js";
import { steepest_Nm2pA2 } from "./parts/motor.points.js";
import * as at from "./state.js";
import type { Working } from "./working.js";

/** An event is landed on within this, s. */
const LANDING_s = 1e-9;
/** Parts of a step while the wheels slip are at most this share of the rim's own time constant. */
const SLIP_SHARE = 0.2;

/** So many events on end, each as soon after the one before, are a fault of ours: modes that chase each other in time. */
const MOST_IN_HASTE = 100;
const HASTE_s = 1e-6;

/** Looks on and changes nothing. */
export interface Observer {
  /** After every step: where it began; the working stands at its end, still in the mode of the step. */
  step(w: Working, from_s: number, from: Float64Array, margins: Float64Array): void;
  /** After every instant at which something happened, all changes made. */
  event(w: Working, margins: Float64Array): void;
}

export interface Stepper {
  readonly margins: Float64Array;
  /** Looks at all margins again after a discrete change, such as the driver's moving the lever. */
  settle(): void;
  /** Carries the working on to a time, landing on every event on the way; ends early only with an outcome. */
  advance(until_s: number): void;
}

export function createStepper(w: Working, observer: Observer): Stepper {
  const margins = new Float64Array(MARGINS.length);
  const fired = new Uint8Array(MARGINS.length);
  const from = new Float64Array(at.SIZE);
  const firstStage = new Float64Array(at.SIZE);
  let firstStageKnown = false;
  let inHaste = 0;
  // The derivative at the end of a step, where margins are looked at, is the first stage of the next.
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
    for (let i = 0; i < margins.length; i++) if (margins[i] < 0) return true;
    return false;
  }

  /** The least of the margins that fired, after a step from the copy. */
  function leastFired(dt_s: number): number {
    w.y.set(from);
    firstStageKnown = false;
    if (dt_s > 0) tryStep(dt_s);
    else {
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
    from.set(w.y);
    const landed = tryStep(to_s - start_s);
    w.time_s = landed ? start_s + land(to_s - start_s) : to_s;
    firstStageKnown = !landed;
    inHaste = landed && w.time_s - start_s < HASTE_s ? inHaste + 1 : 0;
    if (inHaste > MOST_IN_HASTE) throw new RunError(`events follow each other without end at ${w.time_s} s`);
    observer.step(w, start_s, from, margins);
    if (landed) lookAgain();
  }

  /** All margins after a change; whoever looks on is told if anything came of it. */
  function lookAgain(): void {
    firstStageKnown = false;
    const logged = w.events.length;
    settle(w, margins);
    if (w.events.length > logged) observer.event(w, margins);
  }

  // The driver looks first: he needs the workings of the start.
  motion(w, firstStage, w.y, w.time_s);
  return {
    margins,
    settle: lookAgain,
    advance(until_s) {
      while (w.time_s < until_s && w.outcome === undefined) {
        const due_s = nextDue_s(w);
        const bend_s = nextBend_s(w.train.brakes, w.application, w.time_s);
        stepTo(Math.min(until_s, due_s, bend_s, w.time_s + longestPart_s(w, until_s - w.time_s)));
        if (w.time_s < due_s) continue;
        actOnDues(w);
        lookAgain();
      }
    },
  };
}

/**
 * While the wheels slip under power only rotor and rims answer the motor, with the rate k²G²/(r² R m): a step is cut into equal parts
 * that follow it.
 */
function longestPart_s(w: Working, step_s: number): number {
  if (w.mode.wheels === 0 || !w.mode.powered || w.mode.rim === 0) return step_s;
  const rate_ps = rimRate_ps(w, 0);
  return step_s / Math.ceil((step_s * rate_ps) / SLIP_SHARE);
}

/** How fast at most the motor's pull answers a change of the rims' speed, with a mass that moves along with them, 1/s. */
export function rimRate_ps(w: Working, along_kg: number): number {
  const { motor, gears, radius_m, motorPath_ohm, meshes } = w.train;
  const resistance_ohm = motor.resistance20_ohm + motorPath_ohm;
  const perSpeed_Nspm = (steepest_Nm2pA2(motor) * gears.ratio ** 2) / (radius_m ** 2 * resistance_ohm);
  return perSpeed_Nspm * slowedBy_pkg(meshes, along_kg);
}
