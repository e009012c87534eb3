import type { LimitedBy, Plan, Stall } from "@rideon/sim-core";
import type { Eyes } from "./eyes.js";

/** Of which plan, for whose eyes. */
interface Seen {
  plan: Plan;
  eyes: Eyes;
}

/** What holds the motor's current where it is, as each place has room to say it. */
interface LimitWords {
  /** One word, or two: a column. */
  short: string;
  /** What holds a train back, in the log. */
  logged: string;
  /** Why it does not restart, with the figure behind it. */
  because(seen: Seen): string;
  /** Why it stands, and what would help. */
  stands(seen: Seen, stall: Stall): string;
}

const MORE_GRIP = "More weight on driven wheels helps, another driven axle, drier rail, or fewer aboard.";

export const LIMITS: Readonly<Record<LimitedBy, LimitWords>> = {
  adhesion: {
    short: "grip",
    logged: "the driver minds the grip of the driven wheels",
    because: () => "the driven wheels have no more grip",
    stands: ({ eyes }, { grip_N }) =>
      `The driven wheels grip up to ${eyes.of(grip_N, "force")} on this rail, and more pull only spins them. ${MORE_GRIP}`,
  },
  motor_current: {
    short: "motor amps",
    logged: "the controller's motor current limit",
    because: ({ eyes, plan: { train } }) =>
      `the controller gives the motor no more than ${eyes.of(train.controller.motorLimit_A, "current")}`,
    stands: ({ eyes, plan: { train } }) =>
      `The controller holds the motor to its limit of ${eyes.of(train.controller.motorLimit_A, "current")}. A lower gear helps, a higher limit if the motor bears it, or fewer aboard.`,
  },
  battery_current: {
    short: "battery amps",
    logged: "the controller's battery current limit",
    because: ({ eyes, plan: { train } }) =>
      `the controller takes no more than ${eyes.of(train.controller.batteryLimit_A, "current")} from the battery`,
    stands: () => "The controller holds the battery to its limit. A lower gear helps, a higher limit, or fewer aboard.",
  },
  duty: {
    short: "volts",
    logged: "full lever: the motor takes all the volts there are",
    because: () => "the motor has all the volts there are",
    stands: () =>
      "The lever is full open and the motor takes all the volts there are. A lower gear helps, or fewer aboard.",
  },
  battery: {
    short: "battery",
    logged: "the battery gives no more",
    because: () => "the battery gives no more",
    stands: () =>
      "The battery gives no more: its own resistance takes the rest. A stronger or fuller battery helps, or a lower gear.",
  },
  lever: {
    short: "lever",
    logged: "the lever is not far enough open",
    because: () => "the lever is not open far enough",
    stands: () => "The lever is not open far enough.",
  },
  no_load_speed: {
    short: "speed",
    logged: "the motor takes no current",
    because: () => "the motor takes no current",
    stands: () => "The motor takes no current.",
  },
  plugging: {
    short: "plugging",
    logged: "it is being driven backwards",
    because: () => "it is driven backwards against its motor",
    stands: () => "It is being driven backwards against its motor.",
  },
};

/** Of wheels that spin already, whatever limits the current. */
export const SPINNING: Pick<LimitWords, "logged"> & { stands: string } = {
  logged: "the wheels spin",
  stands: `Its driven wheels spin, and spinning they grip less: shut the lever and open it less far. ${MORE_GRIP}`,
};
