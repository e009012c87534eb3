import { sound } from "../../record/sound.js";
import { run } from "../../run.js";
import type { Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import { rimLoads } from "../shafts/loads.js";
import type { CouplingRow, CouplingsAnswer } from "./answer.js";
import { worstStops } from "./stops.js";
import { watchCouplings } from "./watch.js";

export interface CouplingsOptions {
  step_s?: number;
  /** What steady forces are multiplied by for jerks; 3 unless told. */
  jerk_factor?: number;
}

/** No factor for small railways was found in print. A load that comes on all at once already makes twice its steady strain. */
const JERK_FACTOR = 3;
const JERK_SOURCE = "common practice, no source";

/**
 * What couplings and buffer beam carry, steadily: pull and push at each coupling over the working, in the worst stop, and
 * with the train held fast. The force in a coupling is what all that is beyond it takes: rolling, curves, gravity, air, its
 * mass times the acceleration, less its own brakes. Jerks are no part of it: a factor stands for them.
 * @throws InputError where an option is wrong
 * @throws RunError where the working or a stop cannot be run to its end
 */
export function couplings(plan: Plan, options: CouplingsOptions = {}): CouplingsAnswer {
  mustBeAsked(options);
  const { step_s, jerk_factor = JERK_FACTOR } = options;
  const { vehicles } = plan.train;
  const count = vehicles.length - 1;
  const held_pull_N = drawbarHeld_N(plan);
  const { extremes, observer } = watchCouplings(count, (w) => w.plan.trains.get(w.aboard) ?? w.plan.train);
  run(plan, { observers: [observer], ...(step_s === undefined ? {} : { step_s }) });
  const stops = worstStops(plan, count);
  const rows = extremes.map(({ pull, push }, i): CouplingRow => {
    const { pull: stop_pull, push: stop_push } = stops[i];
    const stopped_N = Math.max(stop_pull?.force_N ?? 0, stop_push?.force_N ?? 0);
    const steady_N = Math.max(pull.force_N, push.force_N, stopped_N, held_pull_N);
    const beyond = vehicles.slice(i + 1);
    return {
      coupling: i + 1,
      beyond: beyond.map(({ name }) => name),
      beyond_kg: beyond.reduce((sum, { mass_kg }) => sum + mass_kg, 0),
      pull,
      push,
      stop_pull,
      stop_push,
      steady_N,
      with_jerks_N: jerk_factor * steady_N,
    };
  });
  return sound({
    rows,
    held_pull_N,
    jerk_factor,
    jerk_source: options.jerk_factor === undefined ? JERK_SOURCE : "as asked",
  });
}

/** What comes to the rims, the train not moving: its bearings let all of it through. */
const drawbarHeld_N = (plan: Plan): number => {
  const { current_limit_N, grip_N } = rimLoads(plan);
  return Math.min(current_limit_N, grip_N);
};
