import { assume, type Notes, shown } from "../errors.js";
import { root } from "../numeric/roots.js";
import { COPPER_pK } from "./constants.js";
import type { LocoDefinition } from "./files.keys.js";
import { type HeatLoad, loopGain, type MotorHeat, windingAfter_degC } from "./heat.nodes.js";
import { motorKeys } from "./motor.keys.js";

type Definition = LocoDefinition["motor"]["heat"];

const usually = motorKeys.heat.keys;

/** What the rule below asks of the motor, all motors together; NaN where no rating is known. */
export interface RatedLosses {
  /** Or is the rating a guess? */
  readonly known: boolean;
  readonly current_A: number;
  /** At the shaft. */
  readonly power_W: number;
  readonly speed_radps: number;
  readonly resistance20_ohm: number;
  readonly brush_V: number;
  readonly drag_W: number;
  /** Motors, and how many of them share the current. */
  readonly count: number;
  readonly paths: number;
}

/** Classes A, B, F: Kosow, Electric Machinery and Transformers, table 13-1; H from memory, IEC 60085. */
export const CLASS_LIMIT_degC = { A: 105, B: 130, F: 155, H: 180 } as const;

/** The air that ratings are given for: from memory, IEC 60034-1. */
export const RATING_AIR_degC = 40;

// Common practice, no source: chosen so that 250 to 1000 W motors warm as such motors do, the winding in two to ten
// minutes. Mass and losses leave no choice for the case: at 12 kg a kilowatt it takes about twenty.
const ARMATURE_SHARE = 0.4;
const WINDING_SHARE_OF_RISE = 0.25;

// Between copper 385 and iron 460; between iron 460, ferrite 700 and aluminium 900: handbook figures, from memory.
const ARMATURE_JpkgK = 420;
const CASE_JpkgK = 500;

/** Stands in where the motor or its heat contradicts itself, so that the other parts can still be looked at. */
const STAND_IN = { winding_JpK: 1, case_JpK: 1, windingToCase_KpW: 1, caseToAir_KpW: 1, fan_radps: 0 };

/**
 * The motor's heat from its four figures, or worked out: carrying its continuous current in air of 40 °C the winding
 * settles exactly at its class, with the copper that hot and the drag's heat in the case. A quarter of that rise lies
 * between winding and case. Where the current is for a time only, the winding reaches its class just then, from cold. All of
 * this at rated speed: a fan on the shaft cools less at a lower one.
 * @param sound do the motor's own figures hold? Where they do not, there is nothing to work from
 */
export function createHeat(definition: Definition, losses: RatedLosses, notes: Notes, sound = true): MotorHeat {
  const insulation = assume(notes, "loco.motor.heat.insulation", definition?.insulation, usually.insulation.default);
  const limit_degC = CLASS_LIMIT_degC[insulation];
  const cooling = assume(notes, "loco.motor.heat.cooling", definition?.cooling, usually.cooling.default);
  const four = [
    definition?.winding_capacity_JpK,
    definition?.case_capacity_JpK,
    definition?.winding_to_case_KpW,
    definition?.case_to_air_KpW,
  ];
  if (!sound) return { ...STAND_IN, limit_degC };
  const heat = four.some((figure) => figure !== undefined)
    ? fromFour(four, limit_degC, definition, losses, notes)
    : fromRating(definition, limit_degC, losses, notes);
  if (!heat) return { ...STAND_IN, limit_degC };
  if (cooling === "fan" && !(losses.speed_radps > 0)) {
    const message = "a fan cools as its motor's rated speed has it: give that";
    notes.problems.push({ path: "loco.motor.heat.cooling", message });
  }
  return { ...heat, fan_radps: cooling === "fan" && losses.speed_radps > 0 ? losses.speed_radps : 0 };
}

/** Before it is known what cools the case. */
type Uncooled = Omit<MotorHeat, "fan_radps">;

function fromFour(
  four: readonly (number | undefined)[],
  limit_degC: number,
  definition: Definition,
  losses: RatedLosses,
  notes: Notes,
): Uncooled | undefined {
  const refuse = (message: string) => void notes.problems.push({ path: "loco.motor.heat", message });
  const [winding_JpK, case_JpK, windingToCase_KpW, caseToAir_KpW] = four;
  if (!winding_JpK || !case_JpK || !windingToCase_KpW || !caseToAir_KpW) {
    return refuse("winding_capacity, case_capacity, winding_to_case and case_to_air stand together: give all four");
  }
  if (definition?.mass_kg !== undefined || definition?.continuous_current_A !== undefined) {
    refuse("give the four heat figures, or mass and continuous_current to work them out from, not both");
  }
  const { count } = losses;
  const heat = {
    winding_JpK: winding_JpK * count,
    case_JpK: case_JpK * count,
    windingToCase_KpW: windingToCase_KpW / count,
    caseToAir_KpW: caseToAir_KpW / count,
    limit_degC,
  };
  const gain = loopGain(heat, losses.current_A ** 2 * losses.resistance20_ohm);
  if (losses.known && gain >= 1) {
    refuse(`at rated current the hotter copper makes ${shown(gain)} times the heat that warmed it: it would run away`);
  }
  return heat;
}

function fromRating(
  definition: Definition,
  limit_degC: number,
  losses: RatedLosses,
  notes: Notes,
): Uncooled | undefined {
  const at = "loco.motor.heat";
  const { count, paths } = losses;
  if (!(losses.power_W > 0)) {
    const message =
      "no rating to work the motor's heat out from: give two of rated voltage, current and speed, or the four heat figures";
    return void notes.problems.push({ path: at, message });
  }
  const usual_kg = (usually.mass.default.value * losses.power_W) / count;
  const each_kg = assume(notes, `${at}.mass`, definition?.mass_kg, usual_kg);
  const rated_A = losses.current_A / paths;
  const each_A = assume(notes, `${at}.continuous_current`, definition?.continuous_current_A, rated_A);
  const load: HeatLoad = {
    copper20_W: (each_A * paths) ** 2 * losses.resistance20_ohm,
    brush_W: each_A * paths * losses.brush_V,
    drag_W: losses.drag_W,
  };
  const capacities = {
    winding_JpK: each_kg * count * ARMATURE_SHARE * ARMATURE_JpkgK,
    case_JpK: each_kg * count * (1 - ARMATURE_SHARE) * CASE_JpkgK,
  };
  const winding_W = load.copper20_W * (1 + COPPER_pK * (limit_degC - 20)) + load.brush_W;
  const withRise = (rise_K: number): Uncooled => ({
    ...capacities,
    windingToCase_KpW: (WINDING_SHARE_OF_RISE * rise_K) / winding_W,
    caseToAir_KpW: ((1 - WINDING_SHARE_OF_RISE) * rise_K) / (winding_W + load.drag_W),
    limit_degC,
  });
  const rise_K = limit_degC - RATING_AIR_degC;
  const time_s = definition?.continuous_for_s;
  if (time_s === undefined) {
    assume<string>(notes, `${at}.continuous_for`, undefined, usually.continuous_for.default.words);
    return withRise(rise_K);
  }
  // Warmed for a time only, the motor would settle higher than its class, were the copper no hotter than that.
  const over_K = (settling_K: number) =>
    windingAfter_degC(withRise(settling_K), load, RATING_AIR_degC, RATING_AIR_degC, RATING_AIR_degC, time_s) -
    limit_degC;
  if (over_K(rise_K) > -1e-6) return withRise(rise_K);
  const most_K = rise_K * 1e4;
  if (over_K(most_K) < 0) {
    const reached = shown(limit_degC + over_K(most_K), "°C");
    const message = `that current would only warm ${shown(each_kg, "kg")} to ${reached} in this time if no heat left it: give the motor's mass, or the four heat figures`;
    notes.problems.push({ path: `${at}.continuous_for`, message });
    return withRise(rise_K);
  }
  return withRise(root(over_K, rise_K, most_K));
}
