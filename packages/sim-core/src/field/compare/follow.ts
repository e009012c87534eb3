import { forceFor_N, holdUntilItPulls, leftToBrakes_N, slow } from "../../driver/driver.js";
import { hasServiceBrake, holdOn } from "../../driver/hands.js";
import { DRIVER_s, leverForSpeed } from "../../driver/lever.js";
import { stretch } from "../../numeric/tables.js";
import * as at from "../../state.js";
import { breakOff, moveLever, shutLever, type Working } from "../../working.js";
import type { Journey } from "./journey.js";

/** The gap to the logged speed is closed in about this time, s: common practice, no source. */
const CLOSES_GAP_s = 1.5;
/** So slowly the train is drawn on to where it stood, and started from there, m/s. */
const CREEP_mps = 0.3;
/** It has come to where it stood within so much, m. */
const STOOD_WITHIN_m = 2;

/** A driver who takes the train along as the log tells that it went: the same speed at the same place, stops included. */
export function following(journey: Journey): (w: Working) => void {
  const { run_m, speed_mps, stands, length_m } = journey;
  let [hint, next, start_m] = [0, 0, Number.NaN];
  return (w) => {
    if (Number.isNaN(start_m)) start_m = w.y[at.POSITION];
    w.minding = false;
    w.stop = undefined;
    if (w.due_s.dwell < Number.POSITIVE_INFINITY) {
      shutLever(w);
      holdOn(w);
      return;
    }
    const x = w.y[at.POSITION] - start_m;
    if (x >= length_m) return breakOff(w, "completed");
    while (next < stands.length && x > stands[next].at_m + STOOD_WITHIN_m) next++;
    const toStand_m = next < stands.length ? stands[next].at_m - x : Number.POSITIVE_INFINITY;
    if (w.mode.train === 0 && w.time_s > 0 && Math.abs(toStand_m) <= STOOD_WITHIN_m) {
      w.due_s.dwell = w.time_s + stands[next++].for_s;
      shutLever(w);
      holdOn(w);
      return;
    }
    hint = stretch(run_m, x, hint);
    const i = hint;
    const [slow2, fast2] = [speed_mps[i] ** 2, speed_mps[i + 1] ** 2];
    const share = Math.min(1, Math.max(0, (x - run_m[i]) / (run_m[i + 1] - run_m[i])));
    const there_mps = Math.sqrt(slow2 + share * (fast2 - slow2));
    const speed_now = w.y[at.SPEED];
    const draws_on = there_mps < CREEP_mps && toStand_m > 0.1;
    const gains_mps2 = draws_on ? 0 : (fast2 - slow2) / (2 * (run_m[i + 1] - run_m[i]));
    const wanted_mps2 = gains_mps2 + (Math.max(there_mps, draws_on ? CREEP_mps : 0) - speed_now) / CLOSES_GAP_s;
    const asked_N = forceFor_N(w, wanted_mps2);
    moveLever(w, leverForSpeed(w, asked_N), DRIVER_s);
    if (w.mode.train === 0) holdUntilItPulls(w);
    else slow(w, asked_N < 0 && hasServiceBrake(w) ? leftToBrakes_N(w, asked_N) : 0, 0);
  };
}
