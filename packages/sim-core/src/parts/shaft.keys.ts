import { CP, chosen, derived, fixed, taken } from "../defaults.js";
import type { Keys } from "../keys.js";

/**
 * Steels by the designations of their standards: hot rolled (EN 10025-2), bright drawn (EN 10277), normalised or quenched
 * and tempered (EN ISO 683, before that EN 10083). Their strengths are in strength/steel.ts.
 */
export const STEELS = [
  "S235JR",
  "S275JR",
  "S355J2",
  "S235JRC+C",
  "11SMn30+C",
  "C45+N",
  "C45+C",
  "C45+QT",
  "42CrMo4+QT",
] as const;
export type SteelName = (typeof STEELS)[number];

/** Suddenly applied loads with minor shocks have 1.5 to 2 in bending and 1 to 1.5 in torsion, heavy ones up to 3. */
const SHOCK_SOURCE =
  "suddenly applied loads with minor shocks: ASME's code for transmission shafting, as textbooks of machine design print it, from memory";

const keywayKeys = {
  width: {
    kind: "quantity",
    dimension: "length",
    min: 0.0005,
    max: 0.1,
    required: true,
    meaning: "width of the key, along the circumference",
    example: "6 mm",
    usual: [0.002, 0.022],
  },
  height: {
    kind: "quantity",
    dimension: "length",
    min: 0.0005,
    max: 0.1,
    required: true,
    meaning: "whole height of the key, half of it in the shaft",
    example: "6 mm",
    usual: [0.002, 0.018],
  },
  length: {
    kind: "quantity",
    dimension: "length",
    min: 0.001,
    max: 0.5,
    required: true,
    meaning: "length of the key that bears, its round ends left out",
    example: "25 mm",
    usual: [0.006, 0.1],
  },
} as const satisfies Keys;

const bearingKeys = {
  spacing: {
    kind: "quantity",
    dimension: "length",
    min: 0.005,
    max: 3,
    meaning: "distance between the middles of the shaft's two bearings",
    default: derived(0.7, { range: [0.5, 1.5], words: (gauges) => `${gauges} × gauge: inside the wheels`, source: CP }),
    example: "130 mm",
    usual: [0.03, 1],
  },
  type: {
    kind: "choice",
    choices: ["ball", "roller"],
    meaning: "kind of rolling bearing, for its life",
    default: chosen("ball", "the shorter-lived at light loads: common practice, no source"),
  },
  rating: {
    kind: "quantity",
    dimension: "force",
    min: 10,
    max: 1e6,
    meaning: "basic dynamic load rating C of one bearing, as its maker prints it",
    example: "14 kN",
    usual: [1000, 100_000],
  },
} as const satisfies Keys;

/** What motor shaft, layshafts and axles have in common. */
const common = {
  diameter: {
    kind: "quantity",
    dimension: "length",
    min: 0.002,
    max: 0.3,
    meaning: "diameter of the solid shaft where it is weakest near its sprocket",
    example: "20 mm",
    usual: [0.006, 0.08],
  },
  material: {
    kind: "choice",
    choices: STEELS,
    meaning: "steel by its designation: EN 10025-2, EN 10277 or EN ISO 683",
    default: chosen("S235JR", "the weakest of these: the bad case"),
    example: "C45+N",
  },
  key: { kind: "map", keys: keywayKeys, meaning: "key of its most loaded sprocket" },
  hub: {
    kind: "quantity",
    dimension: "length",
    min: 0.001,
    max: 0.5,
    meaning: "length of the hub that the key lies in",
    example: "28 mm",
    usual: [0.006, 0.1],
  },
  set_screw: {
    kind: "quantity",
    dimension: "length",
    min: 0.002,
    max: 0.03,
    meaning: "thread of the grub screw that holds the sprocket by itself, its cup point on the bare shaft",
    example: "8 mm",
    usual: [0.003, 0.013],
  },
  bush_torque: {
    kind: "quantity",
    dimension: "torque",
    min: 0.1,
    max: 1e5,
    meaning: "torque that the maker rates its taper bush for",
    example: "147 N m",
    usual: [5, 5000],
  },
  bearings: { kind: "map", keys: bearingKeys, meaning: "the two bearings it runs in" },
  bending_shock: {
    kind: "number",
    min: 1,
    max: 5,
    meaning: "shock factor on bending, Kb of ASME's code",
    default: fixed(2, { range: [1.5, 3], source: SHOCK_SOURCE }),
    example: "2",
    usual: [1, 3],
  },
  torsion_shock: {
    kind: "number",
    min: 1,
    max: 5,
    meaning: "shock factor on torsion, Kt of ASME's code",
    default: fixed(1.5, { range: [1, 3], source: SHOCK_SOURCE }),
    example: "1.5",
    usual: [1, 3],
  },
} as const satisfies Keys;

const place = {
  overhang: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    max: 1,
    meaning: "how far outside the nearest bearing its sprocket stands, middle to middle",
    example: "35 mm",
    usual: [0.005, 0.15],
  },
  inboard: {
    kind: "quantity",
    dimension: "length",
    min: 0.001,
    max: 1.5,
    meaning: "how far inside the nearest bearing its sprocket stands, where it runs between them",
    example: "30 mm",
    usual: [0.005, 0.5],
  },
} as const satisfies Keys;

/** The shaft that drives a stage: the motor's own for the first, a layshaft for each after it. */
export const shaftKeys = {
  ...common,
  overhang: { ...place.overhang, default: fixed(0.04, { range: [0.02, 0.07], source: CP }) },
  inboard: place.inboard,
  driven_overhang: {
    ...place.overhang,
    meaning: "the same of the sprocket by which a layshaft is driven",
    default: taken("as the sprocket that it drives with", { range: "exact", source: CP }),
  },
  driven_inboard: { ...place.inboard, meaning: "the same of the sprocket by which a layshaft is driven" },
} as const satisfies Keys;

/** A driven axle. */
export const axleKeys = {
  ...common,
  overhang: place.overhang,
  inboard: {
    ...place.inboard,
    default: derived(0.5, {
      range: [0.15, 0.5],
      words: (share) => `${share} × spacing: in the middle, the bad case`,
      source: CP,
    }),
  },
  wheel_offset: {
    kind: "quantity",
    dimension: "length",
    min: 0,
    max: 1,
    meaning: "from the middle of a bearing to the middle of the tread beside it",
    default: derived(0.05, {
      range: [0.03, 0.1],
      words: (gauges) => `half the difference of gauge and spacing, and ${gauges} × gauge`,
      source: CP,
    }),
    example: "35 mm",
    usual: [0.005, 0.2],
  },
} as const satisfies Keys;

/** A sprocket stands outside the bearings or between them. */
export const shaftOneOf = [{ of: ["overhang", "inboard"] }, { of: ["driven_overhang", "driven_inboard"] }] as const;
export const axleOneOf = [{ of: ["overhang", "inboard"] }] as const;
