import { chosen } from "../defaults.js";
import type { Keys } from "../keys.js";

/** A switch in the main circuit, or one of the control circuit. */
export const switchKeys = {
  rating: {
    kind: "quantity",
    dimension: "current",
    min: 0.01,
    max: 10000,
    required: true,
    meaning: "current it carries for ever",
    example: "125 A",
    usual: [0.5, 1000],
  },
  breaks: {
    kind: "quantity",
    dimension: "current",
    min: 0.01,
    max: 100000,
    meaning: "direct current it can break, at the volts it is rated for",
    example: "800 A",
    usual: [1, 10000],
  },
  voltage: {
    kind: "quantity",
    dimension: "voltage",
    min: 0.1,
    max: 2000,
    meaning: "volts of direct current it is rated for",
    example: "48 V",
    usual: [5, 1000],
  },
  ac_voltage: {
    kind: "quantity",
    dimension: "voltage",
    min: 0.1,
    max: 2000,
    meaning: "volts of alternating current printed on it, which say nothing for direct current",
    example: "250 V",
    usual: [12, 1000],
  },
  stands: {
    kind: "choice",
    choices: ["main", "control"],
    meaning: "the circuit it stands in: the main one, or the control circuit of a contactor or the controller",
    default: chosen("main", "the circuit that asks more of it"),
  },
} as const satisfies Keys;
