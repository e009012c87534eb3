import { type Adhesion, SLIDING_SHARE } from "../../parts/adhesion.js";
import type { Brake } from "../../parts/brakes.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { withoutDrag } from "../safe.js";
import { WET_BRAKING } from "../size/braking.js";

/**
 * What a train is stopped with once power is off: nothing; the motor's drag alone; the motor as a brake; every service
 * brake of the loco; every one of the train, the guard's too. The last three have the drag besides where it was measured:
 * a figure that was not is a guess, and flatters.
 */
export const BRAKE_SETS = ["none", "drag", "electric", "loco", "all"] as const;
export type BrakeSet = (typeof BRAKE_SETS)[number];

/** A rail to stop on, as the plan or the weather has it. */
export interface Rail {
  readonly rail: string;
  readonly adhesion: Adhesion;
}

/** The plan's rail, and a wet one; only the worse where the two are one or the plan's is worse than wet. */
export function railsOf({ rail, train }: Plan): Rail[] {
  const own = { rail, adhesion: train.adhesion };
  const wet = { rail: "wet", adhesion: { static: WET_BRAKING, sliding: SLIDING_SHARE * WET_BRAKING } };
  if (train.adhesion.static <= WET_BRAKING) return [own];
  return rail === "wet" ? [wet] : [own, wet];
}

/** Does a set put on this brake? */
export function inSet(set: BrakeSet, brake: Brake): boolean {
  return brake.service && (set === "all" || (set === "loco" && brake.vehicle === 0));
}

/** The guard is warned by whistle or by feel, and then does what the driver does: common practice, no source. */
export const GUARD_AFTER_s = 3;

/** How long after the driver acts whoever puts a brake on does so, s. */
export const actsAfter_s = ({ by }: Brake): number => (by === "guard" ? GUARD_AFTER_s : 0);

/** Has the train this set at all? */
export function isFitted(set: BrakeSet, { brakes, controller }: Train): boolean {
  if (set === "electric") return controller.electricBrake !== "none";
  return set === "none" || set === "drag" || brakes.some((brake) => inSet(set, brake));
}

/**
 * The train as it comes to be stopped: breaker, cut-out and the battery's own protection, which would take the power off
 * sooner, stay out of it; the lever is where it is wanted; without the motor's drag where none is to be counted on.
 */
export function trainToStop(train: Train, set: BrakeSet, adhesion: Adhesion): Train {
  const never = Number.POSITIVE_INFINITY;
  return {
    ...(countsOnDrag(set, train) ? train : withoutDrag(train)),
    adhesion,
    controller: { ...train.controller, cutout_V: 0, ramp_s: 0 },
    protection: { ...train.protection, fitted: false },
    breaker: { ...train.breaker, rating_A: never, magnetic_A: never },
  };
}

/** Is the drag of the motor part of what this set is told to do? */
export const countsOnDrag = (set: BrakeSet, { motor }: Train): boolean =>
  set === "drag" || (set !== "none" && motor.dragMeasured);
