import { protectionOf, type Train } from "@rideon/sim-core";
import type { Opened } from "../../words/ready.js";
import type { TrialWorked } from "./work.js";

/** A trial worked out, and what its words are made of. */
export interface TrialTold extends Opened, TrialWorked {
  /** A dead short across the battery's own terminals, A. */
  short_A: number;
  quiet: boolean;
}

export const trialTold = (opened: Opened, worked: TrialWorked, quiet: boolean): TrialTold => ({
  ...opened,
  ...worked,
  short_A: protectionOf(opened.plan).short_circuit.at_terminals_A,
  quiet,
});

/** A brake that holds it while it stands; the motor holds nothing. */
export const hasBrake = ({ brakes }: Train): boolean => brakes.length > 0;

/** Does anything but a closed gearbox turn between motor and axle? */
export const hasChains = ({ gears }: Train): boolean => gears.stages.some(({ teeth }) => teeth !== undefined);

export const isSeries = ({ motor }: Train): boolean => motor.kind === "series";

/** `breaker of 50 A`. */
export const guardWords = ({ breaker }: Train): string =>
  breaker.kind === "none" ? "neither breaker nor fuse" : `${breaker.kind} of ${Math.round(breaker.rating_A)} A`;
