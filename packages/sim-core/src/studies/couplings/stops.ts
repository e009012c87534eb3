import { RAIL, SLIDING_SHARE } from "../../parts/adhesion.js";
import type { Plan } from "../../train/plan.js";
import { brakesStep_s } from "../brakes/brakes.js";
import { type Place, placesOf, speedOf_mps } from "../brakes/places.js";
import { type BrakeSet, isFitted, type Rail } from "../brakes/sets.js";
import { stopFrom, toStop } from "../brakes/stop.js";
import { hardestFirst } from "../brakes/stopping.js";
import { forStopping } from "../safe.js";
import { waysOf } from "../ways.js";
import type { StopForce } from "./answer.js";
import { watchCouplings } from "./watch.js";

/** Sets that a train may be stopped with: the loco's alone run the cars in, the guard's alone pull them out. */
const SETS: readonly BrakeSet[] = ["electric", "loco", "all"];
/** Stopped from so many places, from the steepest fall to the steepest climb: a hollow under the train counts too. */
const PLACES = 16;

/** The worst of the stops at one coupling. */
export interface Stopped {
  pull: StopForce | null;
  push: StopForce | null;
}

/** The rail that grips best: the harder wheels are braked, the more couplings carry. */
function bestRail({ train, rail }: Plan): Rail {
  if (train.adhesion.static >= RAIL.dry) return { rail, adhesion: train.adhesion };
  return { rail: "dry", adhesion: { static: RAIL.dry, sliding: SLIDING_SHARE * RAIL.dry } };
}

/** The most that each coupling carries in a stop, as stopping counts the train. */
export function worstStops(asked: Plan, couplings: number): Stopped[] {
  const plan = forStopping(asked);
  const worst = Array.from({ length: couplings }, (): Stopped => ({ pull: null, push: null }));
  const speed_mps = speedOf_mps(plan);
  if (speed_mps <= 0) return worst;
  const rail = bestRail(plan);
  const step_s = brakesStep_s(plan);
  for (const way of waysOf(plan)) {
    const places = spread(hardestFirst(placesOf(plan, way)));
    for (const set of SETS.filter((each) => isFitted(each, way.train))) {
      for (const place of places) {
        const { extremes, observer } = watchCouplings(couplings, () => plan.train);
        const ready = { ...toStop(plan, way, set, rail, step_s), lookingOn: observer };
        stopFrom(ready, place.along_m, Math.min(speed_mps, place.limit_mps));
        const direction = way.back ? ("back" as const) : ("out" as const);
        const stop = { brakes: set, rail: rail.rail, chainage_m: place.chainage_m, direction };
        extremes.forEach(({ pull, push }, i) => {
          if (pull.force_N > (worst[i].pull?.force_N ?? 0)) worst[i].pull = { force_N: pull.force_N, ...stop };
          if (push.force_N > (worst[i].push?.force_N ?? 0)) worst[i].push = { force_N: push.force_N, ...stop };
        });
      }
    }
  }
  return worst;
}

/** So many of them, evenly, both ends included. */
function spread(places: readonly Place[]): Place[] {
  if (places.length <= PLACES) return [...places];
  return Array.from({ length: PLACES }, (_, i) => places[Math.round((i * (places.length - 1)) / (PLACES - 1))]);
}
