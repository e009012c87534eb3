import { CP, chosen, derived, fixed, taken } from "../defaults.js";
import type { Keys } from "../keys.js";

const RPM = Math.PI / 30;

/** `5e-6` and not `0.000005`, as such small figures are read. */
const shortest = (value: number): string => value.toExponential();

const volts = {
  kind: "quantity",
  dimension: "voltage",
  min: 0.1,
  max: 1000,
  example: "24 V",
  usual: [3, 120],
} as const;
const amps = {
  kind: "quantity",
  dimension: "current",
  min: 0.01,
  max: 10000,
  example: "26.7 A",
  usual: [1, 300],
} as const;
const turning = {
  kind: "quantity",
  dimension: "shaft_speed",
  min: 10,
  max: 10000,
  example: "2600 rpm",
  usual: [100 * RPM, 12_000 * RPM],
} as const;

export const motorKeys = {
  kind: {
    kind: "choice",
    choices: ["permanent-magnet", "series"],
    meaning: "how the motor's field is made",
    default: chosen("permanent-magnet", "most small traction motors: common practice, no source"),
  },
  count: {
    kind: "count",
    min: 1,
    max: 8,
    meaning: "equal motors on the same shaft; every other figure is that of one",
    default: fixed(1, { range: "exact", source: "one unless told" }),
    usual: [1, 4],
  },
  connection: {
    kind: "choice",
    choices: ["parallel", "series"],
    meaning: "how several motors are wired; in parallel they share the controller's current",
    default: chosen("parallel", CP),
  },
  nameplate: {
    kind: "map",
    meaning: "the figures stamped on the motor",
    keys: {
      voltage: { ...volts, required: true, meaning: "rated voltage" },
      current: { ...amps, required: true, meaning: "rated current" },
      speed: { ...turning, required: true, meaning: "rated speed under load" },
      power: {
        kind: "quantity",
        dimension: "power",
        min: 1,
        max: 1e5,
        required: true,
        meaning: "rated power at the shaft",
        example: "500 W",
        usual: [20, 10000],
      },
      no_load_current: {
        ...amps,
        meaning: "current when it turns free",
        default: derived(0.11, {
          range: [0.06, 0.18],
          words: (share) => `${Number((100 * share).toPrecision(4))} % of rated current`,
          source: CP,
        }),
        example: "2.9 A",
        usual: [0.1, 50],
      },
    },
  },
  constants: {
    kind: "map",
    meaning: "the motor's constants at 20 °C",
    keys: {
      resistance: {
        kind: "quantity",
        dimension: "resistance",
        min: 1e-4,
        max: 1000,
        required: true,
        meaning: "resistance between the terminals",
        example: "0.14 ohm",
        usual: [0.005, 3],
      },
      torque_constant: {
        kind: "quantity",
        dimension: "torque_constant",
        min: 1e-4,
        max: 10,
        required: true,
        meaning: "torque per amp, the same number as volts per rad/s",
        example: "0.076 N m/A, 8 V/krpm or 125 rpm/V",
        usual: [0.01, 1.5],
      },
      drag: {
        kind: "quantity",
        dimension: "torque",
        min: 0,
        max: 100,
        meaning: "friction torque at any speed",
        default: fixed(0, { range: [0, 0.3], source: "given with the constants or none" }),
        example: "0.23 N m",
        usual: [0, 5],
      },
      drag_per_speed: {
        kind: "quantity",
        dimension: "viscous_drag",
        min: 0,
        max: 1,
        meaning: "growth of the friction torque with speed",
        default: fixed(0, { range: [0, 0.0005], source: "given with the constants or none" }),
        example: "0.0001 N m s",
        usual: [0, 0.01],
      },
    },
  },
  bench: {
    kind: "map",
    meaning: "three meter readings: turning free, and with the shaft locked",
    keys: {
      free: {
        kind: "map",
        required: true,
        meaning: "turning free",
        keys: {
          voltage: { ...volts, required: true, meaning: "volts at the terminals" },
          current: { ...amps, required: true, meaning: "current", example: "3 A", usual: [0.1, 50] },
          speed: { ...turning, required: true, meaning: "speed" },
        },
      },
      locked: {
        kind: "map",
        required: true,
        meaning: "shaft held, on a low voltage",
        keys: {
          voltage: { ...volts, required: true, meaning: "volts at the terminals", example: "3 V", usual: [0.3, 30] },
          current: { ...amps, required: true, meaning: "current", example: "20 A" },
        },
      },
    },
  },
  curve: {
    kind: "map",
    meaning: "a measured or printed curve of three rows or more",
    keys: {
      file: { kind: "file", required: true, meaning: "CSV with torque_Nm,speed_rpm,current_A", example: "motor.csv" },
      voltage: { ...volts, required: true, meaning: "volts at the terminals all along it" },
    },
  },
  saturation: {
    kind: "map",
    meaning: "magnetisation points of a series motor",
    keys: {
      resistance: {
        kind: "quantity",
        dimension: "resistance",
        min: 1e-4,
        max: 1000,
        required: true,
        meaning: "armature and field together",
        example: "0.12 ohm",
        usual: [0.005, 3],
      },
      speed: { ...turning, required: true, meaning: "speed the points were taken at" },
      file: { kind: "file", required: true, meaning: "CSV with current_A,emf_V", example: "magnetisation.csv" },
    },
  },
  rated: {
    kind: "map",
    meaning: "rated figures beside constants, bench or curve",
    keys: {
      voltage: { ...volts, meaning: "rated voltage" },
      current: { ...amps, meaning: "rated current" },
      speed: { ...turning, meaning: "rated speed" },
    },
  },
  inertia: {
    kind: "quantity",
    dimension: "inertia",
    min: 1e-6,
    max: 100,
    meaning: "moment of inertia of one motor's rotor",
    default: derived(5e-6, {
      range: [2e-6, 12e-6],
      words: (kgm2pW) => `${shortest(kgm2pW)} kg m² per watt rated`,
      source: CP,
    }),
    example: "0.0025 kg m^2",
    usual: [2e-5, 0.2],
  },
  magnet: {
    kind: "choice",
    choices: ["ferrite", "neodymium", "none"],
    meaning: "magnet material, whose flux falls as it warms",
    default: derived({ withPlate: "ferrite", otherwise: "none" } as const, {
      range: { withPlate: "exact", otherwise: "exact" },
      words: ({ withPlate, otherwise }) => `${withPlate} with a nameplate, otherwise ${otherwise}`,
      source: "ferrite -0.20 %/K, neodymium -0.11 %/K: magnet makers' figures",
    }),
  },
  brush_drop: {
    kind: "quantity",
    dimension: "voltage",
    min: 0,
    max: 10,
    meaning: "volts lost in the pair of brushes",
    default: fixed(0, { range: "exact", source: "inside the effective resistance worked out from a nameplate" }),
    example: "0.5 V",
    usual: [0, 3],
  },
  heat: {
    kind: "map",
    meaning: "how the motor warms",
    keys: {
      mass: {
        kind: "quantity",
        dimension: "mass",
        min: 0.05,
        max: 2000,
        meaning: "mass of one motor",
        default: derived(0.012, {
          range: [0.007, 0.018],
          words: (kgpW) => `${1000 * kgpW} kg per kW rated`,
          source: CP,
        }),
        example: "6 kg",
        usual: [0.5, 150],
      },
      insulation: {
        kind: "choice",
        choices: ["A", "B", "F", "H"],
        meaning: "insulation class: hot spot to 105, 130, 155 or 180 °C",
        default: chosen(
          "B",
          "classes A, B, F: Kosow, Electric Machinery, table 13-1; H from memory, IEC 60085; the default from common practice, no source",
        ),
      },
      continuous_current: {
        ...amps,
        meaning: "current it carries without passing its class",
        default: taken("rated current", { range: [0.85, 1.1], source: "what a rating means" }),
      },
      continuous_for: {
        kind: "quantity",
        dimension: "time",
        min: 1,
        max: 86400,
        meaning: "how long it carries that current from cold",
        default: taken("always", {
          range: "exact",
          source: "continuous rating unless told; a plate may mean an hour",
        }),
        example: "60 min",
        usual: [60, 28800],
      },
      cooling: {
        kind: "choice",
        choices: ["still", "fan"],
        meaning:
          "what cools the case: still air, at any speed alike, or a fan on the shaft, which a slow motor turns slowly",
        default: chosen(
          "still",
          "a closed motor without a fan: common practice, no source; with a fan 0.3 of the cooling is left standing (drive textbooks, from memory)",
        ),
      },
      winding_capacity: {
        kind: "quantity",
        dimension: "heat_capacity",
        min: 1,
        max: 1e7,
        meaning: "heat capacity of the winding and armature",
        example: "700 J/K",
        usual: [20, 20000],
      },
      case_capacity: {
        kind: "quantity",
        dimension: "heat_capacity",
        min: 1,
        max: 1e7,
        meaning: "heat capacity of the case",
        example: "2000 J/K",
        usual: [50, 100000],
      },
      winding_to_case: {
        kind: "quantity",
        dimension: "thermal_resistance",
        min: 1e-4,
        max: 1000,
        meaning: "thermal resistance from winding to case",
        example: "0.2 K/W",
        usual: [0.01, 5],
      },
      case_to_air: {
        kind: "quantity",
        dimension: "thermal_resistance",
        min: 1e-4,
        max: 1000,
        meaning: "thermal resistance from case to air",
        example: "0.35 K/W",
        usual: [0.01, 5],
      },
    },
  },
} as const satisfies Keys;
