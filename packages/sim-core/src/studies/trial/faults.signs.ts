/** What is noticed from the seat. */
export const SYMPTOMS = [
  "no_amps",
  "amps_without_movement",
  "volts_fall_too_far",
  "slow_but_strong",
  "fast_but_weak",
  "jerks",
  "slips",
  "hot",
  "wrong_way",
  "trips",
] as const;
export type Symptom = (typeof SYMPTOMS)[number];

/**
 * What is read for a symptom, and when it is there: by the ratio `x` of a reading to a sound machine's, or by what is
 * seen here and what usually is.
 */
export interface Sign {
  readonly readings: readonly string[];
  readonly shows: (x: (reading: string) => number, says: (reading: string) => Says, breaker_A: number) => boolean;
}

/** A reading as it is, and whether a sound machine has a yes there. */
export interface Says {
  readonly value: number;
  readonly yes: boolean;
  readonly no: boolean;
  readonly usually: boolean;
}

// From how much on each is noticed, here and below: common practice, no source.
const MORE = 1.12;
const LESS = 0.9;

export const SIGNS: Record<Symptom, Sign> = {
  no_amps: {
    readings: ["rest_volts", "held_controller_volts", "held_motor_amps", "run_motor_amps"],
    shows: (x) => x("run_motor_amps") < 0.2 && x("restart_most_amps") < 0.2,
  },
  amps_without_movement: {
    readings: ["run_speed", "run_motor_amps", "run_battery_volts", "held_pull", "roll_train"],
    shows: (x) => x("run_speed") === 0 && x("run_motor_amps") > 0.3,
  },
  volts_fall_too_far: {
    readings: ["rest_volts", "restart_least_volts", "run_battery_volts", "run_controller_volts", "run_battery_amps"],
    shows: (x) => x("restart_least_volts") < 0.97 || x("run_controller_volts") < 0.97,
  },
  slow_but_strong: {
    readings: ["run_speed", "stands_rpm_full", "held_pull", "run_motor_amps", "run_controller_volts"],
    shows: (x) => x("run_speed") > 0 && x("run_speed") < LESS && x("held_pull") > LESS,
  },
  fast_but_weak: {
    readings: ["run_speed", "stands_rpm_full", "held_pull", "held_motor_amps", "restart_amps"],
    shows: (x) => x("stands_rpm_full") > MORE && x("held_pull") < 1.02,
  },
  jerks: {
    readings: ["restart_cuts_out", "restart_spins", "held_motor_amps", "held_pull"],
    shows: (x, says) =>
      (says("restart_cuts_out").yes && !says("restart_cuts_out").usually) ||
      (x("held_pull") < 0.6 * x("held_motor_amps") && x("roll_loco") < MORE),
  },
  slips: {
    readings: ["restart_spins", "restart_most_amps", "restarts", "held_pull"],
    // Where a sound machine spins its wheels at full lever too, less current shows that they grip less.
    shows: (x, says) => {
      const { yes, usually } = says("restart_spins");
      return yes && (!usually || x("restart_most_amps") < LESS);
    },
  },
  hot: {
    readings: ["run_motor_amps", "restart_amps", "roll_train", "stands_amps"],
    shows: (x) => x("run_speed") > 0 && (x("run_motor_amps") > 1.25 || x("restart_amps") > 1.25),
  },
  wrong_way: {
    readings: ["stands_forwards", "run_forwards"],
    shows: (_, says) => says("stands_forwards").no && says("stands_turn").yes && says("stands_forwards").usually,
  },
  trips: {
    readings: ["run_battery_amps", "restart_battery_amps", "run_speed", "run_motor_amps"],
    shows: (_, says, breaker_A) =>
      Math.max(says("run_battery_amps").value, says("restart_battery_amps").value) > breaker_A,
  },
};
