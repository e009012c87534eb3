import type { Assumed } from "../../errors.js";
import type { Outcome } from "../../event.js";
import type { ChainSize } from "../../parts/chain.keys.js";
import type { SteelName } from "../../parts/shaft.keys.js";
import type { BearingType } from "../../strength/bearing.js";

/** What the worst torque is found by: which of them a shaft must be made for. */
export type GovernedBy = "working" | "current_limit" | "braking" | "slipping";

/** Forces at the driven rims that bound what shafts carry, N. */
export interface RimLoads {
  /** Standing, the lever fully open, all cold: by the controller's limit, or what the battery gives. */
  current_limit_N: number;
  /** Braking through the chains, by the motor or by a brake on its shaft; null where nothing does. */
  braking_N: number | null;
  /** Grip of the driven wheels on a rail at least dry, and that rail's grip as a share of the load on them. */
  grip_N: number;
  grip: number;
  /** Through the last chain while the wheels spin at that limit: sliding, and speeding up; null where they grip for it. */
  spinning_N: number | null;
  /** With the wheels slipping: the more of the two. No more than this comes through an axle, whatever drives or brakes it. */
  slipping_N: number;
  /** The least of these that can come about: what the drive is judged by, and which one it is. */
  worst_N: number;
  governed_by: Exclude<GovernedBy, "working">;
}

/** Torques of one shaft, N m. Those of the limits are as at the rims, with the loss of every stage on the way. */
export interface ShaftTorque {
  /** Highest in the working as run, either way; and where: the head of the train, from the first post. */
  working_Nm: number;
  working_at_m: number;
  working_at_s: number;
  current_limit_Nm: number;
  braking_Nm: number | null;
  slipping_Nm: number;
  worst_Nm: number;
  governed_by: GovernedBy;
}

/** A chain's pull on a shaft at its worst torque. */
export interface SprocketPull {
  sprocket: "driving" | "driven";
  teeth: number;
  chain: ChainSize;
  /** Tight side, drawn at the smallest radius, as `gears` has it; the slack side is left out. */
  pull_N: number;
  at: "overhung" | "inboard";
  /** From the middle of the nearest bearing. */
  distance_m: number;
  bending_Nm: number;
}

/** How a sprocket is fixed, and the torque that holds. */
export interface Fixing {
  by: "key" | "set_screw" | "taper_bush";
  /** A key at its yield over its factor of safety; a set screw by its table; a bush by its maker. */
  holds_Nm: number;
  /** How a key gives; null for the others. */
  gives_by: "shear" | "crushing" | null;
  /** What it holds over the worst torque; null where there is none. */
  margin: number | null;
  least_margin: number;
  enough: boolean;
}

/** The key that goes with a shaft of this diameter, and how long it must be. */
export interface KeyWanted {
  width_m: number;
  height_m: number;
  length_m: number;
}

/** The more loaded bearing of a shaft. */
export interface ShaftBearing {
  spacing_m: number;
  type: BearingType;
  /** Radial, at the worst torque: no more than the static rating C0 may be asked of it. */
  worst_load_N: number;
  /** Over the working, by turns and the exponent of its life; null where the shaft did not turn. */
  mean_load_N: number | null;
  mean_speed_radps: number;
  /** Basic rating C as given, and its L10 under that load; null where it is not given. */
  rating_N: number | null;
  life_Mrev: number | null;
  /** Hours of working like this one, its stops counted in. */
  life_h: number | null;
  /** Basic rating C that lasts `wanted_life_h`. */
  wanted_life_h: number;
  rating_wanted_N: number | null;
}

/** One shaft, from the motor to the axle. Whatever is null was not given, and does not follow from what was. */
export interface ShaftRow {
  shaft: "motor" | "layshaft" | "axle";
  /** Its key in the loco file, and whether anything stands there. */
  key: string;
  given: boolean;
  torque: ShaftTorque;
  pulls: SprocketPull[];
  /** On the axle's wheels, and the bending that weight and pull at the rail make beside its bearings; 0 but for an axle. */
  weight_N: number;
  wheels_bending_Nm: number;
  /** All of it as if it bent one way at one place: the safe side, since where the chains lie is not known. */
  bending_Nm: number;
  bending_shock: number;
  torsion_shock: number;
  equivalent_torque_Nm: number;
  equivalent_bending_Nm: number;
  material: SteelName;
  standard: string;
  material_source: string;
  /** Is a keyway allowed for? */
  keyway: boolean;
  /** At the given diameter, or at the least one. */
  yield_Pa: number;
  ultimate_Pa: number;
  allowable_shear_Pa: number;
  /** Solid and round; which theory asks for more. */
  least_diameter_m: number;
  decided_by: "shear" | "normal";
  diameter_m: number | null;
  /** Of the given diameter: greatest shear with the shock factors in it. */
  shear_Pa: number | null;
  /** Shear at which it yields, less what a keyway takes, over that. */
  safety_factor: number | null;
  /** What may be allowed over what there is, by the worse theory: at least 1. */
  margin: number | null;
  enough: boolean | null;
  fixings: Fixing[];
  key_wanted: KeyWanted | null;
  bearing: ShaftBearing;
}

/** What the figures leave out for this loco. */
export type ShaftsRemark =
  /** What wheels push in a closed gearbox is not known: no bending from it. */
  | "closed_gearbox"
  /** Chains or rods from axle to axle are in no file: their pull is left out, the first axle carries all the torque. */
  | "coupled_axles"
  /** Plain bearings of the axles have no rating life. */
  | "plain_bearings"
  /** The motor's own bearings: what its maker allows on the end of its shaft comes first. */
  | "motor_shaft";

/** The answer of `shafts`. */
export interface ShaftsAnswer {
  /** Of the working as run. */
  outcome: Outcome;
  loads: RimLoads;
  /** From the motor to the axle. */
  rows: ShaftRow[];
  /** The rules behind the figures, with their sources. */
  rules: string[];
  remarks: ShaftsRemark[];
  /** Of shafts that the loco file leaves out altogether; of others `check` lists it. */
  assumed: Assumed[];
}
