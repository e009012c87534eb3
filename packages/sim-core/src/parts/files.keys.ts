import { CP, chosen, derived, fixed } from "../defaults.js";
import type { Keys } from "../keys.js";
import { batteryKeys } from "./battery.keys.js";
import { brakeKeys, brakeOneOf } from "./brakes.keys.js";
import type { LocoDefinition, PlanDefinition } from "./definitions.js";
import { controllerKeys, gearKeys, wiringKeys } from "./drive.keys.js";
import { motorKeys } from "./motor.keys.js";
import { carKeys, resistanceKeys, SHORTEST_VEHICLE_m, wheelsKeys } from "./vehicle.keys.js";

/** The loco file. */
export const locoKeys = {
  name: { kind: "text", required: true, meaning: "what the loco is called", example: "Hazel" },
  gauge: {
    kind: "quantity",
    dimension: "length",
    min: 0.03,
    max: 2,
    required: true,
    meaning: "track gauge",
    example: "7 1/4 in",
    usual: [0.06, 0.62],
  },
  mass: {
    kind: "quantity",
    dimension: "mass",
    min: 1,
    max: 50000,
    required: true,
    meaning: "mass ready to run, without driver",
    example: "140 kg",
    usual: [20, 4000],
  },
  length: {
    kind: "quantity",
    dimension: "length",
    min: SHORTEST_VEHICLE_m,
    max: 30,
    meaning: "length over couplings",
    default: derived(10, {
      range: [6, 14],
      words: (gauges) => `${gauges} × gauge, at least ${SHORTEST_VEHICLE_m} m`,
      source: CP,
    }),
    example: "1.8 m",
    usual: [0.4, 8],
  },
  frame_width: {
    kind: "quantity",
    dimension: "length",
    min: 0.02,
    max: 3,
    meaning: "width over the frame plates that carry the bearings",
    example: "150 mm",
    usual: [0.03, 1.2],
  },
  wheels: { kind: "map", required: true, keys: wheelsKeys, meaning: "wheels and axles" },
  resistance: { kind: "map", keys: resistanceKeys, meaning: "what the loco's own bearings and wheels take" },
  motor: {
    kind: "map",
    required: true,
    keys: motorKeys,
    meaning: "the motor, by one of its sets of figures",
    oneOf: [{ of: ["nameplate", "constants", "bench", "curve", "saturation"], required: true }],
  },
  gears: {
    kind: "list",
    required: true,
    keys: gearKeys,
    meaning: "stages from the motor to the axle",
    oneOf: [{ of: ["teeth", "ratio"], required: true }],
  },
  controller: { kind: "map", required: true, keys: controllerKeys, meaning: "the chopper controller" },
  battery: { kind: "map", required: true, keys: batteryKeys, meaning: "the battery" },
  wiring: {
    kind: "map",
    keys: wiringKeys,
    meaning: "cables, breaker or fuse, and steady loads",
    oneOf: [{ of: ["breaker", "fuse"] }],
  },
  brakes: {
    kind: "list",
    keys: brakeKeys,
    oneOf: brakeOneOf,
    meaning: "brakes of the loco",
    example: "[{ rail_force: 300 N }]",
  },
} as const satisfies Keys;

/** The plan file: one working of one train. */
export const planKeys = {
  name: { kind: "text", meaning: "what the working is called", example: "Sunday running" },
  loco: { kind: "file", required: true, meaning: "the loco file", example: "loco.yaml" },
  air_temperature: {
    kind: "quantity",
    dimension: "temperature",
    min: -40,
    max: 60,
    meaning: "air temperature",
    default: fixed(15, { range: [5, 25], source: CP }),
    example: "15 °C",
    usual: [-20, 45],
  },
  charge: {
    kind: "number",
    min: 0.001,
    max: 1,
    meaning: "charge at the start, rested",
    default: fixed(1, { range: [0.9, 1], source: "a full battery unless told" }),
    example: "80 %",
    usual: [0.1, 1],
  },
  track: {
    kind: "map",
    required: true,
    meaning: "the track and the state of its rail",
    oneOf: [{ of: ["rail", "adhesion"] }],
    keys: {
      profile: { kind: "file", required: true, meaning: "the profile CSV", example: "track.csv" },
      kind: {
        kind: "choice",
        choices: ["circuit", "end-to-end"],
        meaning: "does the line close on itself?",
        default: chosen("circuit", "most club tracks: common practice, no source"),
      },
      at_ends: {
        kind: "choice",
        choices: ["propel", "run-round", "turn"],
        meaning: "how an end-to-end train comes back",
        default: chosen("propel", CP),
      },
      rail: {
        kind: "choice",
        choices: ["dry", "damp", "wet", "greasy"],
        meaning: "state of the rail: grip 0.25, 0.20, 0.15 or 0.08",
        default: chosen("dry", "dry, damp, wet: a table of traction texts; greasy: common practice, no source"),
      },
      adhesion: {
        kind: "number",
        min: 0.01,
        max: 1,
        meaning: "grip as a share of weight, in place of rail",
        example: "0.22",
        usual: [0.05, 0.4],
      },
      wind: {
        kind: "quantity",
        dimension: "speed",
        min: -20,
        max: 20,
        meaning: "wind against the train; all the way round on a circuit: the bad case",
        default: fixed(0, { range: [-3, 3], source: "still air unless told" }),
        example: "2 m/s",
        usual: [-12, 12],
      },
      spread_misclosure: {
        kind: "yes_no",
        meaning: "spread a misclosure of any size along the length",
        default: chosen(false, "a survey that does not close is usually a mistake"),
      },
    },
  },
  driver: {
    kind: "map",
    meaning: "the driver",
    keys: {
      mass: {
        kind: "quantity",
        dimension: "mass",
        min: 0,
        max: 250,
        meaning: "mass of the driver",
        default: fixed(80, { range: [60, 105], source: CP }),
        example: "80 kg",
        usual: [40, 150, "or 0"],
      },
      rides: { kind: "text", meaning: "loco, or the name of the car the driver sits on", default: chosen("loco", CP) },
    },
  },
  cars: { kind: "list", keys: carKeys, meaning: "cars behind the loco, in order" },
  drag_area: {
    kind: "quantity",
    dimension: "area",
    min: 0,
    max: 20,
    meaning: "drag area of the whole train (drag coefficient times frontal area)",
    default: fixed(0.7, {
      range: [0.4, 1.2],
      source: "a little above one cyclist's 0.47 m² (Sports Engineering, 2021)",
    }),
    example: "0.7 m^2",
    usual: [0.1, 5, "or 0"],
  },
  passengers: {
    kind: "count",
    min: 0,
    max: 1000,
    meaning: "number aboard, without the driver",
    default: fixed(0, { range: "exact", source: "none unless told" }),
    usual: [0, 100],
  },
  passenger_mass: {
    kind: "quantity",
    dimension: "mass",
    min: 1,
    max: 250,
    meaning: "mass of one passenger",
    default: fixed(75, { range: [45, 90], source: "from memory: the adult of ride and rail standards" }),
    example: "75 kg",
    usual: [25, 130],
  },
  speed: {
    kind: "quantity",
    dimension: "speed",
    min: 0.01,
    max: 20,
    meaning: "drive to this speed",
    example: "4 mph",
    usual: [0.4, 7],
  },
  lever: {
    kind: "number",
    min: 0.001,
    max: 1,
    meaning: "hold the lever here, whatever the speed",
    example: "0.6",
    usual: [0.05, 1],
  },
  acceleration: {
    kind: "quantity",
    dimension: "acceleration",
    min: 0.001,
    max: 3,
    meaning: "most the driver accelerates",
    default: fixed(0.15, { range: [0.08, 0.3], source: CP }),
    example: "0.15 m/s^2",
    usual: [0.02, 0.6],
  },
  service_braking: {
    kind: "quantity",
    dimension: "acceleration",
    min: 0.001,
    max: 5,
    meaning: "retardation of an ordinary stop",
    default: fixed(0.3, { range: [0.15, 0.6], source: CP }),
    example: "0.3 m/s^2",
    usual: [0.05, 1.5],
  },
  reaction_time: {
    kind: "quantity",
    dimension: "time",
    min: 0,
    max: 10,
    meaning: "time before the driver acts",
    // From one who expects it, 0.7 s, to what nine in ten people keep to, 2.5 s.
    default: fixed(1.5, {
      range: [0.7, 2.5],
      source: "surprise: M. Green, Transportation Human Factors 2(3), 2000",
    }),
    example: "1.5 s",
    usual: [0.3, 5],
  },
  stops: {
    kind: "list",
    meaning: "stops of the working",
    example: "[{ place: Station, dwell: 30 s }]",
    keys: {
      place: { kind: "text", required: true, meaning: "a place of the profile" },
      dwell: {
        kind: "quantity",
        dimension: "time",
        min: 0,
        max: 86400,
        required: true,
        meaning: "time at the stop",
        example: "30 s",
        usual: [1, 3600, "or 0"],
      },
      direction: {
        kind: "choice",
        choices: ["out", "back", "both"],
        meaning: "direction it stops in",
        default: chosen("both", CP),
      },
      passengers: { kind: "count", min: 0, max: 1000, meaning: "passengers aboard after the stop", usual: [0, 100] },
    },
  },
  laps: {
    kind: "count",
    min: 1,
    max: 100000,
    meaning: "laps to run; end-to-end, there and back is one",
    default: fixed(1, { range: "exact", source: "one unless told" }),
    usual: [1, 500],
  },
  duration: {
    kind: "quantity",
    dimension: "time",
    min: 1,
    max: 86400,
    meaning: "time to run, in place of laps",
    example: "4 h",
    usual: [60, 43200],
  },
} as const satisfies Keys;

/** Exactly one of speed and lever, at most one of laps and duration. */
export const planOneOf = [{ of: ["speed", "lever"], required: true }, { of: ["laps", "duration"] }] as const;

/** What a loco is apart from its drive: enough to say what it weighs, how it rolls and how it grips. */
export type RollingLoco = Omit<LocoDefinition, "motor" | "gears" | "controller" | "battery" | "wiring">;
export type { LocoDefinition, PlanDefinition };
