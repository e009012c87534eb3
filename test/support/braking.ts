import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import { wantBrake } from "../../packages/sim-core/src/parts/brakes.application.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import type { Plan } from "../../packages/sim-core/src/train/plan.js";
import type { Working } from "../../packages/sim-core/src/working.js";
import { coast } from "./drivers.js";
import { type Textbook, textbookPlan } from "./textbook.js";

type BrakeDefinition = NonNullable<LocoDefinition["brakes"]>[number];

export interface Stop {
  speed_mps: number;
  chainage_m?: number;
  /** Coasting until then. */
  reaction_s?: number;
  /** As textbooks have it: the whole force from the first instant, in place of delay and build-up. */
  atOnce?: boolean;
  step_s?: number;
  observers?: readonly Observer[];
}

/** Coasts, and after the reaction time puts on every brake of the train; until it stands. */
export function stopped(plan: Plan, stop: Stop): Working {
  const does = (w: Working) => {
    w.train.brakes.forEach((brake, i) => {
      if (brake.service) wantBrake(w.train.brakes, w.application, i, 1, w.time_s);
    });
    if (stop.atOnce) w.application.from.fill(1);
  };
  const { speed_mps, chainage_m } = stop;
  return run(plan, {
    step_s: stop.step_s ?? 0.05,
    start: { speed_mps, ...(chainage_m === undefined ? {} : { chainage_m }) },
    driver: coast,
    act: { time_s: stop.reaction_s ?? 0, does },
    observers: stop.observers ?? [],
  });
}

/** How far and how long a textbook's train runs on. */
export function bookStop(book: Textbook, brakes: BrakeDefinition[], stop: Stop, parts: Partial<LocoDefinition> = {}) {
  const w = stopped(textbookPlan(book, { brakes, ...parts }), stop);
  return { distance_m: w.y[at.RUN], time_s: w.events.find(({ kind }) => kind === "at_rest")?.time_s ?? Number.NaN, w };
}
