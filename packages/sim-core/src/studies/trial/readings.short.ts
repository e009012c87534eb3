import type { Train } from "../../train/train.js";
import type { Reading } from "./readings.kinds.js";

/**
 * The readings to begin with, a dozen beside the looks: the way along the current from battery to motor, what it pulls and
 * what it is pulled with, how fast it runs, and whether it starts on the bank.
 */
const SHORT = new Set([
  "rest_volts",
  "stands_forwards",
  "held_motor_amps",
  "held_controller_volts",
  "held_output_volts",
  "held_motor_volts",
  "held_motor_drop",
  "held_pull",
  "roll_train",
  "run_speed",
  "run_motor_amps",
  "restarts",
]);

/** Nobody is sent up the steepest place with a train that has no brake. */
export const isShort = ({ reading, step }: Reading, { brakes }: Train): boolean =>
  step === "looks" || (SHORT.has(reading) && (step !== "restart" || brakes.length > 0));
