import { CP, chosen, fixed } from "../defaults.js";
import type { Keys } from "../keys.js";

/** A brake, on the loco or a car. */
export const brakeKeys = {
  hand_force: {
    kind: "quantity",
    dimension: "force",
    min: 0.1,
    max: 5000,
    meaning: "force of the hand on the lever",
    example: "120 N",
    usual: [10, 500],
  },
  linkage_ratio: {
    kind: "number",
    min: 0.01,
    max: 1000,
    meaning: "force at the blocks for each newton of the hand",
    example: "8",
    usual: [0.5, 50],
  },
  linkage_efficiency: {
    kind: "number",
    min: 0.01,
    max: 1,
    meaning: "share of the force that comes through the linkage",
    example: "0.8",
    usual: [0.3, 0.98],
  },
  block_friction: {
    kind: "number",
    min: 0.01,
    max: 1,
    meaning: "friction of block on wheel",
    example: "0.25",
    usual: [0.05, 0.7],
  },
  rail_force: {
    kind: "quantity",
    dimension: "force",
    min: 0.1,
    max: 1e6,
    meaning: "braking force at the rail",
    example: "300 N",
    usual: [10, 5000],
  },
  torque: {
    kind: "quantity",
    dimension: "torque",
    min: 0.01,
    max: 1e5,
    meaning: "braking torque on a shaft",
    example: "8 N m",
    usual: [0.3, 500],
  },
  on: { kind: "choice", choices: ["motor", "axle"], meaning: "shaft the torque acts on", example: "axle" },
  braked_share: {
    kind: "number",
    min: 0.01,
    max: 1,
    meaning: "share of this vehicle's weight on braked wheels",
    default: fixed(1, { range: [0.5, 1], source: "all wheels braked unless told" }),
    usual: [0.1, 1],
  },
  delay: {
    kind: "quantity",
    dimension: "time",
    min: 0,
    max: 60,
    meaning: "time before it begins to bite",
    default: fixed(0.3, { range: [0.1, 0.6], source: CP }),
    example: "0.3 s",
    usual: [0.05, 3],
  },
  build_up: {
    kind: "quantity",
    dimension: "time",
    min: 0,
    max: 60,
    meaning: "time from nothing to full force",
    default: fixed(0.6, { range: [0.2, 1.2], source: CP }),
    example: "0.6 s",
    usual: [0.05, 5],
  },
  use: {
    kind: "choice",
    choices: ["service", "parking", "both"],
    meaning: "what it is for",
    default: chosen("both", CP),
  },
  by: { kind: "choice", choices: ["driver", "guard"], meaning: "who puts it on", default: chosen("driver", CP) },
  on_dead_man: {
    kind: "yes_no",
    meaning: "does releasing the dead-man's switch put it on?",
    default: chosen(false, "the safe assumption"),
  },
} as const satisfies Keys;

/** Its force by one of hand and linkage, the rail, or a torque on a shaft. */
export const brakeOneOf = [{ of: ["hand_force", "rail_force", "torque"], required: true }] as const;
