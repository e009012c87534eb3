import type { Keys } from "../keys.js";
import { brakeKeys, brakeOneOf } from "./brakes.keys.js";

const CP = "common practice, no source";

export const wheelsKeys = {
  diameter: {
    kind: "quantity",
    dimension: "length",
    above: 0,
    max: 2,
    required: true,
    meaning: "wheel diameter on the tread",
    example: "165 mm",
  },
  wheelbase: {
    kind: "quantity",
    dimension: "length",
    above: 0,
    meaning: "rigid wheelbase: of one bogie if it has bogies",
    default: "3.3 × gauge",
    source: CP,
    example: "500 mm",
  },
  bogie_centres: {
    kind: "quantity",
    dimension: "length",
    above: 0,
    meaning: "distance between bogie centres, for a loco on bogies",
    example: "1.2 m",
  },
  axles: { kind: "count", min: 1, max: 12, meaning: "number of axles", default: "2", source: CP },
  driven_axles: {
    kind: "count",
    min: 1,
    max: 12,
    required: true,
    meaning: "number of axles that the motor turns, chained together",
    example: "1",
  },
  driven_share: {
    kind: "number",
    above: 0,
    max: 1,
    meaning: "share of the loco's weight on its driven axles",
    default: "driven_axles / axles",
    source: CP,
    example: "0.5",
  },
  driven_end: {
    kind: "choice",
    choices: ["front", "rear"],
    meaning: "end of the loco whose axles are driven, going out, where not all are",
    default: "front",
    source: "the bad case: a climbing loco's front end gets light",
  },
  wheelset_inertia: {
    kind: "quantity",
    dimension: "inertia",
    min: 0,
    meaning: "moment of inertia of one wheelset about its axle",
    default: "two steel discs 15 mm thick: 7850 π 0.015 (d/2)^4 kg m²",
    source: "solid discs; steel at 7850 kg/m³, the thickness from common practice, no source",
    example: "0.05 kg m^2",
  },
  coupling_height: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    meaning: "height of the coupling above the rail, for weight transfer",
    example: "180 mm",
  },
  gravity_height: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    meaning: "height of the loco's centre of gravity above the rail, for weight transfer",
    example: "300 mm",
  },
} as const satisfies Keys;

const resistance = {
  bearings: {
    kind: "choice",
    choices: ["ball", "plain"],
    meaning: "bearings of the axles",
    default: "ball",
    source: "small wheels are mostly sold with ball bearings: common practice, no source",
  },
  rolling: {
    kind: "number",
    min: 0,
    max: 0.2,
    meaning: "rolling resistance as a share of weight",
    default: "0.010 with ball bearings, 0.015 with plain",
    source:
      "on average club track 0.008 to 0.012 with ball bearings, 0.012 to 0.020 with plain: common practice, no source; measure it with a spring balance",
    example: "0.010 or 10 N/kN",
  },
  rolling_per_speed: {
    kind: "quantity",
    dimension: "per_speed",
    min: 0,
    meaning: "growth of the rolling resistance with speed, as a share of weight per m/s",
    default: "0 s/m",
    source: CP,
    example: "0.001 s/m",
  },
  breakaway: {
    kind: "number",
    min: 0,
    max: 0.5,
    meaning: "resistance to starting from rest as a share of weight",
    default: "1.5 × rolling with ball bearings, 3.3 × with plain",
    source:
      "plain ones: 20 lb a ton to start and 6 to run (W. L. Webb, Railroad Construction, pp. 594-595); ball bearings: common practice, no source",
    example: "0.015",
  },
  sliding_length: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    meaning: "curve resistance as a share of weight is this length over the radius",
    default: "0.2 × (gauge + wheelbase) / 2",
    source: "sliding of a rigid wheelbase, after Morrison in Molesworth's Pocket-book p. 219; good to a factor of 1.5",
    example: "70 mm",
  },
} as const satisfies Keys;

export const resistanceKeys = resistance;

export const carKeys = {
  name: { kind: "text", meaning: "what the car is called", default: "car and its number", example: "Coach" },
  count: {
    kind: "count",
    min: 1,
    max: 50,
    meaning: "how many of these cars run one behind another",
    default: "1",
    source: "one unless told",
  },
  mass: {
    kind: "quantity",
    dimension: "mass",
    above: 0,
    required: true,
    meaning: "mass of one empty car",
    example: "60 kg",
  },
  length: {
    kind: "quantity",
    dimension: "length",
    above: 0,
    required: true,
    meaning: "length of one car over couplings",
    example: "1.8 m",
  },
  seats: { kind: "count", min: 0, max: 40, meaning: "seats in one car", default: "0", source: "none unless told" },
  ...resistance,
  bearings: {
    ...resistance.bearings,
    default: "as the loco",
    source: "one workshop builds both: common practice, no source",
  },
  rolling: { ...resistance.rolling, default: "as the loco; by its bearings where they are not the loco's" },
  rolling_per_speed: { ...resistance.rolling_per_speed, default: "as the loco" },
  breakaway: {
    ...resistance.breakaway,
    default: "as the loco; by its bearings and its rolling where one of them is not the loco's",
  },
  wheelbase: {
    kind: "quantity",
    dimension: "length",
    above: 0,
    meaning: "rigid wheelbase: of one bogie if it has bogies",
    default: "2.2 × gauge",
    source: CP,
    example: "400 mm",
  },
  axles: { kind: "count", min: 1, max: 12, meaning: "number of axles", default: "4", source: CP },
  wheel_diameter: {
    kind: "quantity",
    dimension: "length",
    above: 0,
    max: 2,
    meaning: "wheel diameter on the tread",
    default: "0.6 × gauge",
    source: CP,
    example: "110 mm",
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
