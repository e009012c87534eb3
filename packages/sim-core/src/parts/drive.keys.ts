import { CP, chosen, derived, fixed } from "../defaults.js";
import type { Keys } from "../keys.js";
import { CHAIN_SIZES } from "./chain.keys.js";
import { shaftKeys, shaftOneOf } from "./shaft.keys.js";
import { switchKeys } from "./switches.keys.js";

/** One stage of the drive, from the motor towards the axle. */
export const gearKeys = {
  teeth: {
    kind: "teeth",
    meaning: "teeth of the driving and the driven sprocket",
    example: "[12, 36]",
    usual: [0, 130],
  },
  ratio: {
    kind: "number",
    min: 0.05,
    max: 200,
    meaning: "ratio of a closed gearbox",
    example: "6.75",
    usual: [0.5, 60],
  },
  chain: { kind: "text", meaning: `chain size, for the chain checks: ${CHAIN_SIZES.join(", ")}`, example: "08B" },
  centres: {
    kind: "quantity",
    dimension: "length",
    min: 0.01,
    max: 10,
    meaning: "distance between shaft centres, for the chain checks",
    example: "300 mm",
    usual: [0.08, 1.5],
  },
  efficiency: {
    kind: "number",
    min: 0.1,
    max: 1,
    meaning: "share of the power that comes through",
    default: derived(
      { chain: 0.97, gearbox: 0.9 },
      {
        range: { chain: [0.94, 0.98], gearbox: [0.8, 0.96] },
        words: ({ chain, gearbox }) => `${chain.toFixed(2)} for a chain, ${gearbox.toFixed(2)} for a gearbox`,
        source: "clean chain 0.96 to 0.98: common practice, no source",
      },
    ),
    example: "0.97",
    usual: [0.5, 0.995],
  },
  driven_inertia: {
    kind: "quantity",
    dimension: "inertia",
    min: 0,
    max: 100,
    meaning: "moment of inertia of all that turns with the driven wheel",
    default: derived(
      { layshaft_kgm2: 0.002, last_kgm2: 0 },
      {
        range: { layshaft_kgm2: [0.0005, 0.008], last_kgm2: [0, 0.004] },
        words: ({ layshaft_kgm2, last_kgm2 }) => `${layshaft_kgm2} kg m², ${last_kgm2} for the last stage`,
        source: CP,
      },
    ),
    example: "0.002 kg m^2",
    usual: [0, 0.5],
  },
  shaft: {
    kind: "map",
    keys: shaftKeys,
    oneOf: shaftOneOf,
    meaning: "the shaft that drives this stage: the motor's own for the first, then layshafts",
    example: "{ diameter: 20 mm, overhang: 35 mm }",
  },
} as const satisfies Keys;

export const controllerKeys = {
  motor_current_limit: {
    kind: "quantity",
    dimension: "current",
    min: 0.1,
    max: 10000,
    required: true,
    meaning: "most current it gives the motor",
    example: "50 A",
    usual: [5, 600],
  },
  battery_current_limit: {
    kind: "quantity",
    dimension: "current",
    min: 0.1,
    max: 10000,
    meaning: "most current it takes from the battery",
    example: "40 A",
    usual: [5, 600],
  },
  on_resistance: {
    kind: "quantity",
    dimension: "resistance",
    min: 0,
    max: 10,
    meaning: "resistance of the switch in the motor's path",
    default: fixed(0.005, { range: [0.001, 0.01], source: CP }),
    example: "4 mohm",
    usual: [0, 0.05],
  },
  standing_power: {
    kind: "quantity",
    dimension: "power",
    min: 0,
    max: 10000,
    meaning: "power it takes whenever it is switched on",
    default: fixed(2, { range: [0.5, 6], source: CP }),
    example: "2 W",
    usual: [0, 50],
  },
  undervoltage_cutout: {
    kind: "quantity",
    dimension: "voltage",
    min: 0,
    max: 1000,
    meaning: "battery volts, at the controller, below which it shuts off",
    default: derived(
      { "lead-acid": 1.75, lifepo4: 2.8 },
      {
        range: { "lead-acid": [1.6, 1.9], lifepo4: [2.5, 3] },
        words: (cell_V) => `${cell_V["lead-acid"]} V a lead-acid cell, ${cell_V.lifepo4} V a lifepo4 cell`,
        source: "usual end voltages: common practice, no source",
      },
    ),
    example: "21 V",
    usual: [5, 120, "or 0"],
  },
  cutout_delay: {
    kind: "quantity",
    dimension: "time",
    min: 0,
    max: 3600,
    meaning: "how long the volts must stay below",
    default: fixed(2, { range: [0.5, 10], source: CP }),
    example: "2 s",
    usual: [0.05, 30, "or 0"],
  },
  ramp: {
    kind: "quantity",
    dimension: "time",
    min: 0,
    max: 600,
    meaning: "time the lever takes from zero to full",
    default: fixed(2, { range: [0.5, 4], source: CP }),
    example: "2 s",
    usual: [0.1, 20, "or 0"],
  },
  electric_brake: {
    kind: "choice",
    choices: ["none", "rheostatic", "regenerative"],
    meaning: "braking by the motor",
    default: chosen("none", "none unless told"),
  },
  brake_resistance: {
    kind: "quantity",
    dimension: "resistance",
    min: 0,
    max: 1000,
    meaning: "resistor across the motor when braking",
    default: fixed(0, { range: "exact", source: CP }),
    example: "0.5 ohm",
    usual: [0.01, 20, "or 0"],
  },
  regen_current_limit: {
    kind: "quantity",
    dimension: "current",
    min: 0.1,
    max: 10000,
    meaning: "most current returned to the battery",
    example: "20 A",
    usual: [1, 300],
  },
  regen_voltage_limit: {
    kind: "quantity",
    dimension: "voltage",
    min: 0.1,
    max: 2000,
    meaning: "battery volts above which it returns nothing",
    default: derived(
      { "lead-acid": 2.4, lifepo4: 3.65 },
      {
        range: { "lead-acid": [2.3, 2.45], lifepo4: [3.45, 3.65] },
        words: (cell_V) =>
          `${cell_V["lead-acid"].toFixed(2)} V a lead-acid cell, ${cell_V.lifepo4.toFixed(2)} V a lifepo4 cell`,
        source:
          "where lead-acid begins to gas: common practice, no source; end of charge in data sheets of lifepo4 cells (EVE, 304 Ah)",
      },
    ),
    example: "28.8 V",
    usual: [5, 150],
  },
} as const satisfies Keys;

const cable = {
  length: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    max: 100,
    meaning: "length of cable, there and back",
    default: derived(
      { battery_m: 2, motor_m: 1.5 },
      {
        range: { battery_m: [1, 4], motor_m: [0.6, 3] },
        words: ({ battery_m, motor_m }) => `${battery_m} m to the battery, ${motor_m} m to the motor`,
        source: CP,
      },
    ),
    example: "2 m",
    usual: [0.1, 20, "or 0"],
  },
  area: {
    kind: "quantity",
    dimension: "cable_area",
    min: 0.05,
    max: 1000,
    meaning: "area of the copper",
    default: fixed(16, { range: [6, 35], source: CP }),
    example: "16 mm^2 or 6 AWG",
    usual: [1, 150],
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
        min: 0.1,
        max: 10000,
        required: true,
        meaning: "rated current",
        example: "63 A",
        usual: [2, 500],
      },
      curve: {
        kind: "choice",
        choices: ["B", "C", "D"],
        meaning: "magnetic band of IEC 60898-1",
        default: chosen("C", CP),
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
        min: 0.1,
        max: 10000,
        required: true,
        meaning: "rated current",
        example: "60 A",
        usual: [2, 500],
      },
    },
  },
  isolator: { kind: "map", keys: switchKeys, meaning: "switch that parts the battery from everything" },
  dead_man: { kind: "map", keys: switchKeys, meaning: "dead-man's switch, which opens when the driver lets go" },
  reverser: {
    kind: "map",
    keys: switchKeys,
    meaning: "reversing switch: in the motor's leads, or before the controller's own reverse",
  },
  accessories: {
    kind: "quantity",
    dimension: "power",
    min: 0,
    max: 10000,
    meaning: "lamps, horn and other steady load",
    default: fixed(0, { range: [0, 20], source: "none unless told" }),
    example: "10 W",
    usual: [0.1, 500, "or 0"],
  },
} as const satisfies Keys;
