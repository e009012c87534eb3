import type { EndedBy, Outcome } from "../../event.js";
import type { Chemistry } from "../../parts/battery.data.js";
import type { ChainSize } from "../../parts/chain.keys.js";
import type { SteelName } from "../../parts/shaft.keys.js";
import type { BallastAnswer } from "../ballast/answer.js";
import type { CouplingsAnswer } from "../couplings/answer.js";
import type { ShaftsAnswer } from "../shafts/answer.js";

/** What stands on the list. */
export type PartName =
  | "motor"
  | "controller"
  | "sprocket"
  | "chain"
  | "shaft"
  | "key"
  | "bearing"
  | "wheels"
  | "battery"
  | "charger"
  | "breaker"
  | "battery_cable"
  | "motor_cable"
  | "isolator"
  | "dead_man"
  | "reverser"
  | "brake"
  | "brake_resistor"
  | "coupling";

/** Figures to order by; those that do not belong to a part are absent. */
export interface PartFigures {
  voltage_V?: number;
  current_A?: number;
  /** A switch's, on direct current at `voltage_V`. */
  breaks_A?: number;
  power_W?: number;
  /** Of a resistor that an electric brake turns its current into heat in. */
  resistance_ohm?: number;
  speed_radps?: number;
  capacity_Ah?: number;
  /** Of a battery, and what a charger must be made for. */
  chemistry?: Chemistry;
  /** Of a breaker: braking feeds current back through it, so it must break either way. */
  both_ways?: true;
  teeth?: number;
  chain?: ChainSize;
  links?: number;
  centres_m?: number;
  /** With none given: the least that will do, and how much farther apart each two links more let them be. */
  least_centres_m?: number;
  each_two_links_m?: number;
  bore_m?: number;
  diameter_m?: number;
  width_m?: number;
  height_m?: number;
  length_m?: number;
  area_mm2?: number;
  /** Basic dynamic rating of a bearing; what a brake pulls at the rail; what a coupling carries with jerks. */
  rating_N?: number;
  force_N?: number;
  curve?: "B" | "C" | "D";
  material?: SteelName;
}

/** A line of the list. */
export interface PartLine {
  part: PartName;
  /** `motor`, `layshaft`, `axle`, or the number of a chain from the motor: where on the loco; null where there is one place. */
  place: string | null;
  count: number;
  /** In the loco file: have. What is not there is needed, and its figures are what is wanted. */
  have: boolean;
  figures: PartFigures;
  /** What is asked of what there is: the same figures, as far as they can be told; of what is needed, empty. */
  wanted: PartFigures;
  /** What there is over what is asked, at least 1 where it will do; null where that has no one number. */
  margin: number | null;
  /** Null where nothing here judges it. */
  enough: boolean | null;
  /** The rule behind it, by its name. */
  rule: PartRule;
}

export type PartRule =
  | "rms_current"
  | "starting_current"
  | "as_chosen"
  | "chain_margin"
  | "shaft_stress"
  | "key_crushing"
  | "bearing_life"
  | "breaker_over_climb"
  | "cable_heat"
  | "switch_dc"
  | "charger_overnight"
  | "stops_in_sight"
  | "braking_limit"
  | "jerk_factor";

/**
 * A line that another loco would have otherwise, or that will not do with it: null where one of the two has none such. The
 * other loco's brakes are judged: whether all of them together stop the train within sight, and what would.
 */
export interface PartChange {
  before: PartLine | null;
  after: PartLine | null;
}

/** The answer of `parts`: the list to take to the shop. */
export interface PartsAnswer {
  /** Of the working that the currents are of; what did not get round is judged by nothing that it drew. */
  outcome: Outcome;
  ended_by: EndedBy | null;
  lines: PartLine[];
  /** What shafts, keys and bearings carry, and what couplings pull. */
  shafts: ShaftsAnswer;
  couplings: CouplingsAnswer;
  /** For those aboard to start again on the steepest bit on wet rail, and what it costs. */
  ballast: BallastAnswer;
  /** What another loco's list has otherwise; null where none was asked about. */
  changes: PartChange[] | null;
  /** How many of them are needed, and how many of those that there are will not do. */
  needed: number;
  wanting: number;
}
