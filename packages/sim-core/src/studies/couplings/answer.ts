import type { BrakeSet } from "../brakes/sets.js";

/** The most that a coupling carried in the working, one way. */
export interface CouplingForce {
  force_N: number;
  time_s: number;
  /** Head of the train, from the first post. */
  chainage_m: number;
  direction: "out" | "back";
}

/** The most that it carried in a stop, one way. */
export interface StopForce {
  force_N: number;
  /** What stopped it, and on which rail. */
  brakes: BrakeSet;
  rail: string;
  /** Where the driver acted: the head of the train, from the first post. */
  chainage_m: number;
  direction: "out" | "back";
}

/** One coupling, counted from the loco as the train runs: 1 is the loco's own, and its buffer beam's. */
export interface CouplingRow {
  coupling: number;
  /** Names of the vehicles beyond it, as the train was made up, and what they weigh with all aboard. */
  beyond: string[];
  beyond_kg: number;
  /** In the working as run. 0 where it never pulled, or never pushed. */
  pull: CouplingForce;
  push: CouplingForce;
  /**
   * In the worst stop, from when the driver acts; null where no stop pulls it, or pushes it, and where the train has no brake
   * to be stopped with.
   */
  stop_pull: StopForce | null;
  stop_push: StopForce | null;
  /** The most of all these and of the pull on a train held fast; and that times the factor for jerks. */
  steady_N: number;
  with_jerks_N: number;
}

/** The answer of `couplings`. */
export interface CouplingsAnswer {
  /** From the loco; none where it runs alone. */
  rows: CouplingRow[];
  /** The loco's pull on a train that is held fast: the motor's at the controller's limit, or what dry rail grips. */
  held_pull_N: number;
  /** Jerks are not modelled: slack that runs in or out makes them. A factor stands for them. */
  jerk_factor: number;
  jerk_source: string;
}
