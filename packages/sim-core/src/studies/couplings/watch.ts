import type { Observer } from "../../loop/stepper.js";
import type { Train } from "../../train/train.js";
import { chainage_m, type Working } from "../../working.js";
import type { CouplingForce } from "./answer.js";
import { couplingForce_N, madeUpPlaces, takenBy_N } from "./force.js";

/** The most that one coupling pulled and pushed. */
export interface Extremes {
  pull: CouplingForce;
  push: CouplingForce;
}

const none = (): CouplingForce => ({ force_N: 0, time_s: 0, chainage_m: 0, direction: "out" });

/**
 * Looks on at a working and keeps the most that each coupling pulls and pushes, the first counted from the loco.
 * @param madeUp the train as it was made up, before it turned back
 */
export function watchCouplings(couplings: number, madeUp: (w: Working) => Train) {
  const extremes = Array.from({ length: couplings }, (): Extremes => ({ pull: none(), push: none() }));
  const taken_N = new Float64Array(couplings + 1);
  let train: Train | undefined;
  let places: number[] = [];
  const look = (w: Working) => {
    // In a stop the reaction time is no part of it.
    if (w.due_s.act !== Number.POSITIVE_INFINITY) return;
    if (w.train !== train) {
      train = w.train;
      places = madeUpPlaces(train, madeUp(w));
    }
    takenBy_N(w, places, taken_N);
    for (let i = 0; i < couplings; i++) {
      const force_N = couplingForce_N(w, i + 1, taken_N, places);
      const most = force_N > 0 ? extremes[i].pull : extremes[i].push;
      if (Math.abs(force_N) <= most.force_N) continue;
      most.force_N = Math.abs(force_N);
      most.time_s = w.time_s;
      most.chainage_m = chainage_m(w);
      most.direction = w.returning ? "back" : "out";
    }
  };
  const observer: Observer = { step: look, change: look, event() {} };
  return { extremes, observer };
}
