import type { Plan } from "../train/plan.js";
import { withBearings, withRolling } from "../train/rolling.js";
import type { Train } from "../train/train.js";

/** Without the motor's drag, and without what the gears lose of the rotor's own energy as it slows: both are guesses. */
export const withoutDrag = (train: Train): Train => ({
  ...train,
  motor: { ...train.motor, drag_Nm: 0, dragPerSpeed_Nms: 0 },
  meshes: { ...train.meshes, efficiency: train.meshes.efficiency.map(() => 1) },
});

/** The trains of a plan changed alike, whatever number is aboard. */
const withTrains = (plan: Plan, change: (train: Train) => Train): Plan => ({
  ...plan,
  train: change(plan.train),
  trains: new Map([...plan.trains].map(([aboard, train]) => [aboard, change(train)])),
});

/** Every vehicle rolling with so many times the resistance that it has. */
export const rollingTimes = (plan: Plan, times: number): Plan =>
  withTrains(plan, (train) => withRolling(train, ({ resistance }) => times * resistance.rolling));

/** Bearings as free as they may be, and every fall as steep as the survey leaves open. */
export const withFreeBearings = (plan: Plan): Plan => ({
  ...withTrains(plan, (train) => withBearings(train, "least")),
  leaning: -1,
});

/**
 * The plan as stopping and standing count it: bearings as free as they may be, every fall as steep as the survey leaves
 * open, and no drag of the motor unless it was measured. A train stops at least as soon as this one.
 */
export const forStopping = (plan: Plan): Plan =>
  withTrains(withFreeBearings(plan), (train) => (train.motor.dragMeasured ? train : withoutDrag(train)));

/** The plan as pulling counts it: bearings as stiff as they may be, and every rise as steep as the survey leaves open. */
export const forPulling = (plan: Plan): Plan => ({
  ...withTrains(plan, (train) => withBearings(train, "most")),
  leaning: 1,
});
