import { CP, chosen, derived, fixed, taken, times } from "../defaults.js";
import type { Keys } from "../keys.js";
import { brakeKeys, brakeOneOf } from "./brakes.keys.js";
import { axleKeys, axleOneOf } from "./shaft.keys.js";

/** Shorter than any vehicle that somebody sits on, and long enough that a step does not jump over it. */
export const SHORTEST_VEHICLE_m = 0.3;

export const wheelsKeys = {
  diameter: {
    kind: "quantity",
    dimension: "length",
    min: 0.02,
    max: 2,
    required: true,
    meaning: "wheel diameter on the tread",
    example: "165 mm",
    usual: [0.04, 0.6],
  },
  wheelbase: {
    kind: "quantity",
    dimension: "length",
    min: 0.01,
    max: 20,
    meaning: "rigid wheelbase: of one bogie if it has bogies",
    default: times(3.3, "gauge", { range: [2, 5], source: CP }),
    example: "500 mm",
    usual: [0.1, 3],
  },
  bogie_centres: {
    kind: "quantity",
    dimension: "length",
    min: 0.01,
    max: 30,
    meaning: "distance between bogie centres, for a loco on bogies",
    example: "1.2 m",
    usual: [0.3, 6],
  },
  axles: {
    kind: "count",
    min: 1,
    max: 12,
    meaning: "number of axles",
    default: fixed(2, { range: "exact", source: CP }),
    usual: [2, 8],
  },
  driven_axles: {
    kind: "count",
    min: 1,
    max: 12,
    required: true,
    meaning: "number of axles that the motor turns, chained together",
    example: "1",
    usual: [1, 8],
  },
  driven_share: {
    kind: "number",
    min: 0.01,
    max: 1,
    meaning: "share of the loco's weight on its driven axles",
    default: taken("driven_axles / axles", { range: [0.85, 1.15], source: CP }),
    example: "0.5",
    usual: [0.2, 1],
  },
  driven_end: {
    kind: "choice",
    choices: ["front", "rear"],
    meaning: "end of the loco whose axles are driven, going out, where not all are",
    default: chosen("front", "the bad case: a climbing loco's front end gets light"),
  },
  wheelset_inertia: {
    kind: "quantity",
    dimension: "inertia",
    min: 1e-6,
    max: 1000,
    meaning: "moment of inertia of one wheelset about its axle",
    // Spoked wheels are lighter than discs, cast iron lighter than steel, and treads wider than webs.
    default: derived(
      { density_kgpm3: 7850, thickness_m: 0.015 },
      {
        range: { density_kgpm3: [7100, 7900], thickness_m: [0.008, 0.025] },
        words: ({ density_kgpm3, thickness_m }) =>
          `two steel discs ${1000 * thickness_m} mm thick: ${density_kgpm3} π ${thickness_m} (d/2)^4 kg m²`,
        source: "solid discs; steel at 7850 kg/m³, the thickness from common practice, no source",
      },
    ),
    example: "0.05 kg m^2",
    usual: [1e-4, 10],
  },
  coupling_height: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    max: 2,
    meaning: "height of the coupling above the rail, for weight transfer",
    example: "180 mm",
    usual: [0.03, 0.6],
  },
  gravity_height: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    max: 3,
    meaning: "height of the loco's centre of gravity above the rail, for weight transfer",
    example: "300 mm",
    usual: [0.05, 1],
  },
  axle: {
    kind: "map",
    keys: axleKeys,
    oneOf: axleOneOf,
    meaning: "the axle that the last stage drives",
    example: "{ diameter: 25 mm, material: C45+N }",
  },
} as const satisfies Keys;

const resistance = {
  bearings: {
    kind: "choice",
    choices: ["ball", "plain"],
    meaning: "bearings of the axles",
    default: chosen("ball", "small wheels are mostly sold with ball bearings: common practice, no source"),
  },
  rolling: {
    kind: "number",
    min: 0,
    max: 0.2,
    meaning: "rolling resistance as a share of weight",
    default: derived(
      { ball: 0.01, plain: 0.015 },
      {
        range: { ball: [0.008, 0.012], plain: [0.012, 0.02] },
        words: ({ ball, plain }) => `${ball.toFixed(3)} with ball bearings, ${plain.toFixed(3)} with plain`,
        source:
          "on average club track 0.008 to 0.012 with ball bearings, 0.012 to 0.020 with plain: common practice, no source; measure it with a spring balance",
      },
    ),
    example: "0.010 or 10 N/kN",
    usual: [0.003, 0.04],
  },
  rolling_per_speed: {
    kind: "quantity",
    dimension: "per_speed",
    min: 0,
    max: 0.05,
    meaning: "growth of the rolling resistance with speed, as a share of weight per m/s",
    default: fixed(0, { range: [0, 0.001], source: CP }),
    example: "0.001 s/m",
    usual: [0, 0.01],
  },
  breakaway: {
    kind: "number",
    min: 0,
    max: 0.5,
    meaning: "resistance to starting from rest as a share of weight",
    // Mine cars take 10 to run and 15 to start, 12 and 20: the low end with plain ones.
    default: derived(
      { ball: 1.5, plain: 20 / 6 },
      {
        range: { ball: [1.2, 2.2], plain: [1.5, 4] },
        words: ({ ball, plain }) => `${ball} × rolling with ball bearings, ${plain.toFixed(1)} × with plain`,
        source:
          "plain ones: 20 lb a ton to start and 6 to run (W. L. Webb, Railroad Construction, pp. 594-595); ball bearings: common practice, no source",
      },
    ),
    example: "0.015",
    usual: [0.003, 0.1],
  },
  sliding_length: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    max: 10,
    meaning: "curve resistance as a share of weight is this length over the radius",
    // The friction of wheel on rail that slides: 0.1 to 0.27 there.
    default: times(0.2, "(gauge + wheelbase) / 2", {
      range: [0.13, 0.3],
      source:
        "sliding of a rigid wheelbase, after Morrison in Molesworth's Pocket-book p. 219; good to a factor of 1.5",
    }),
    example: "70 mm",
    usual: [0, 0.5],
  },
} as const satisfies Keys;

export const resistanceKeys = resistance;

export const carKeys = {
  name: {
    kind: "text",
    meaning: "what the car is called",
    default: taken("car and its number", { range: "exact" }),
    example: "Coach",
  },
  count: {
    kind: "count",
    min: 1,
    max: 50,
    meaning: "how many of these cars run one behind another",
    default: fixed(1, { range: "exact", source: "one unless told" }),
    usual: [1, 12],
  },
  mass: {
    kind: "quantity",
    dimension: "mass",
    min: 1,
    max: 20000,
    required: true,
    meaning: "mass of one empty car",
    example: "60 kg",
    usual: [10, 1500],
  },
  length: {
    kind: "quantity",
    dimension: "length",
    min: SHORTEST_VEHICLE_m,
    max: 30,
    required: true,
    meaning: "length of one car over couplings",
    example: "1.8 m",
    usual: [0.4, 6],
  },
  seats: {
    kind: "count",
    min: 0,
    max: 40,
    meaning: "seats in one car",
    default: fixed(0, { range: "exact", source: "none unless told" }),
    usual: [0, 16],
  },
  ...resistance,
  bearings: {
    ...resistance.bearings,
    default: taken("as the loco", {
      range: "exact",
      source: "one workshop builds both: common practice, no source",
    }),
  },
  rolling: {
    ...resistance.rolling,
    default: taken("as the loco; by its bearings where they are not the loco's", {
      range: [0.8, 1.25],
      source: resistance.rolling.default.source,
    }),
  },
  rolling_per_speed: {
    ...resistance.rolling_per_speed,
    default: taken("as the loco", { range: [0.8, 1.25], source: resistance.rolling_per_speed.default.source }),
  },
  breakaway: {
    ...resistance.breakaway,
    default: taken("as the loco; by its bearings and its rolling where one of them is not the loco's", {
      range: [0.8, 1.25],
      source: resistance.breakaway.default.source,
    }),
  },
  wheelbase: {
    kind: "quantity",
    dimension: "length",
    min: 0.01,
    max: 20,
    meaning: "rigid wheelbase: of one bogie if it has bogies",
    default: times(2.2, "gauge", { range: [1.2, 3.5], source: CP }),
    example: "400 mm",
    usual: [0.1, 3],
  },
  axles: {
    kind: "count",
    min: 1,
    max: 12,
    meaning: "number of axles",
    default: fixed(4, { range: "exact", source: CP }),
    usual: [2, 8],
  },
  wheel_diameter: {
    kind: "quantity",
    dimension: "length",
    min: 0.01,
    max: 2,
    meaning: "wheel diameter on the tread",
    default: times(0.6, "gauge", { range: [0.45, 0.9], source: CP }),
    example: "110 mm",
    usual: [0.03, 0.5],
  },
  wheelset_inertia: { ...wheelsKeys.wheelset_inertia },
  brakes: {
    kind: "list",
    keys: brakeKeys,
    oneOf: brakeOneOf,
    meaning: "brakes of the car",
    example: "[{ rail_force: 200 N }]",
  },
} as const satisfies Keys;
