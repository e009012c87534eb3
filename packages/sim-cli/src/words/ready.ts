import type { Notes, Plan, Sizing, Sureness } from "@rideon/sim-core";
import type { Reading } from "../read/index.js";
import type { Eyes } from "./eyes.js";
import type { PlacedWarning } from "./warnings.js";

/** Files read and made ready, with their warnings where they belong and the units their reader thinks in. */
export interface Ready {
  reading: Reading;
  notes: Notes;
  warnings: readonly PlacedWarning[];
  eyes: Eyes;
}

export interface Opened extends Ready {
  plan: Plan;
}

/** A train whose drive is still to be chosen. */
export interface OpenedSizing extends Ready {
  sizing: Sizing;
}

/** An answer ready to be told, beside what was opened for it. */
export type Told<A extends object, R extends Ready = Opened> = R & {
  answer: A;
  /** Step of the simulation; NaN where nothing was simulated. */
  step_s: number;
  /** The answer at half the step, where `--check-step` asked for it. */
  half: A | undefined;
  quiet: boolean;
  /** How sure it is, where that is told within the answer. */
  sureness?: Sureness | undefined;
  /** Is everything told, at length? */
  all: boolean;
};
