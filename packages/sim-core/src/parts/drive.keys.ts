import type { Keys } from "../keys.js";
import { CHAIN_SIZES } from "./chain.keys.js";

const CP = "common practice, no source";

/** One stage of the drive, from the motor towards the axle. */
export const gearKeys = {
  teeth: { kind: "teeth", meaning: "teeth of the driving and the driven sprocket", example: "[12, 36]" },
  ratio: { kind: "number", above: 0, max: 200, meaning: "ratio of a closed gearbox", example: "6.75" },
  chain: { kind: "text", meaning: `chain size, for the chain checks: ${CHAIN_SIZES.join(", ")}`, example: "08B" },
  centres: {
    kind: "quantity",
    dimension: "length",
    above: 0,
    max: 10,
    meaning: "distance between shaft centres, for the chain checks",
    example: "300 mm",
  },
  efficiency: {
    kind: "number",
    above: 0,
    max: 1,
    meaning: "share of the power that comes through",
    default: "0.97 for a chain, 0.90 for a gearbox",
    source: "clean chain 0.96 to 0.98: common practice, no source",
    example: "0.97",
  },
  driven_inertia: {
    kind: "quantity",
    dimension: "inertia",
    min: 0,
    meaning: "moment of inertia of all that turns with the driven wheel",
    default: "0.002 kg m², 0 for the last stage",
    source: CP,
    example: "0.002 kg m^2",
  },
} as const satisfies Keys;

export const controllerKeys = {
  motor_current_limit: {
    kind: "quantity",
    dimension: "current",
    above: 0,
    required: true,
    meaning: "most current it gives the motor",
    example: "50 A",
  },
  battery_current_limit: {
    kind: "quantity",
    dimension: "current",
    above: 0,
    meaning: "most current it takes from the battery",
    example: "40 A",
  },
  on_resistance: {
    kind: "quantity",
    dimension: "resistance",
    min: 0,
    meaning: "resistance of the switch in the motor's path",
    default: "5 mohm",
    source: CP,
    example: "4 mohm",
  },
  standing_power: {
    kind: "quantity",
    dimension: "power",
    min: 0,
    meaning: "power it takes whenever it is switched on",
    default: "2 W",
    source: CP,
    example: "2 W",
  },
  undervoltage_cutout: {
    kind: "quantity",
    dimension: "voltage",
    min: 0,
    meaning: "battery volts, at the controller, below which it shuts off",
    default: "1.75 V a lead-acid cell, 2.8 V a lifepo4 cell",
    source: "usual end voltages: common practice, no source",
    example: "21 V",
  },
  cutout_delay: {
    kind: "quantity",
    dimension: "time",
    min: 0,
    meaning: "how long the volts must stay below",
    default: "2 s",
    source: CP,
    example: "2 s",
  },
  ramp: {
    kind: "quantity",
    dimension: "time",
    min: 0,
    meaning: "time the lever takes from zero to full",
    default: "2 s",
    source: CP,
    example: "2 s",
  },
  electric_brake: {
    kind: "choice",
    choices: ["none", "rheostatic", "regenerative"],
    meaning: "braking by the motor",
    default: "none",
    source: "none unless told",
  },
  brake_resistance: {
    kind: "quantity",
    dimension: "resistance",
    min: 0,
    meaning: "resistor across the motor when braking",
    default: "0 ohm",
    source: CP,
    example: "0.5 ohm",
  },
  regen_current_limit: {
    kind: "quantity",
    dimension: "current",
    above: 0,
    meaning: "most current returned to the battery",
    example: "20 A",
  },
  regen_voltage_limit: {
    kind: "quantity",
    dimension: "voltage",
    above: 0,
    meaning: "battery volts above which it returns nothing",
    default: "2.40 V a lead-acid cell, 3.65 V a lifepo4 cell",
    source:
      "where lead-acid begins to gas: common practice, no source; end of charge in data sheets of lifepo4 cells (EVE, 304 Ah)",
    example: "28.8 V",
  },
} as const satisfies Keys;

const cable = {
  length: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    meaning: "length of cable, there and back",
    default: "2 m to the battery, 1.5 m to the motor",
    source: CP,
    example: "2 m",
  },
  area: {
    kind: "quantity",
    dimension: "cable_area",
    above: 0,
    max: 1000,
    meaning: "area of the copper",
    default: "16 mm^2",
    source: CP,
    example: "16 mm^2 or 6 AWG",
  },
} as const satisfies Keys;

export const wiringKeys = {
  battery_cable: { kind: "map", keys: cable, meaning: "cable between battery and controller" },
  motor_cable: { kind: "map", keys: cable, meaning: "cable between controller and motor" },
  breaker: {
    kind: "map",
    meaning: "circuit breaker in the battery lead",
    keys: {
      rating: {
        kind: "quantity",
        dimension: "current",
        above: 0,
        required: true,
        meaning: "rated current",
        example: "63 A",
      },
      curve: {
        kind: "choice",
        choices: ["B", "C", "D"],
        meaning: "magnetic band of IEC 60898-1",
        default: "C",
        source: CP,
      },
    },
  },
  fuse: {
    kind: "map",
    meaning: "fuse in the battery lead",
    keys: {
      rating: {
        kind: "quantity",
        dimension: "current",
        above: 0,
        required: true,
        meaning: "rated current",
        example: "60 A",
      },
    },
  },
  accessories: {
    kind: "quantity",
    dimension: "power",
    min: 0,
    meaning: "lamps, horn and other steady load",
    default: "0 W",
    source: "none unless told",
    example: "10 W",
  },
} as const satisfies Keys;
