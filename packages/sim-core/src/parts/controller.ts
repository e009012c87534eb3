import { assume, type Notes } from "../errors.js";
import { controllerKeys as usually } from "./drive.keys.js";
import type { LocoDefinition } from "./files.keys.js";

/** A chopper controller with a filtered input: the battery sees duty times motor current. */
export interface Controller {
  readonly motorLimit_A: number;
  /** On the current it takes itself, accessories apart. */
  readonly batteryLimit_A: number;
  readonly on_ohm: number;
  readonly standing_W: number;
  /** Volts at its own terminals below which it shuts off; 0 where it has no cut-out. */
  readonly cutout_V: number;
  /** The cut-out's timer is cleared this far above. */
  readonly cutoutClears_V: number;
  readonly cutoutDelay_s: number;
  /** From lever shut to lever full. */
  readonly ramp_s: number;
  readonly electricBrake: "none" | "rheostatic" | "regenerative";
  readonly brakeResistor_ohm: number;
  /** Most current back into the battery, and the terminal volts it may not pass. */
  readonly regenLimit_A: number;
  readonly regenLimit_V: number;
}

const CLEARS_V_A_BATTERY = 0.2;
export function createController(
  definition: LocoDefinition["controller"],
  cells: number,
  batteriesInSeries: number,
  chemistry: "lead-acid" | "lifepo4" | undefined,
  notes: Notes,
): Controller {
  const path = "loco.controller";
  const cutout_V = chemistry ? usually.undervoltage_cutout.default.value[chemistry] * cells : 0;
  const cut = assume(notes, `${path}.undervoltage_cutout`, definition.undervoltage_cutout_V, cutout_V);
  return {
    motorLimit_A: definition.motor_current_limit_A,
    batteryLimit_A: definition.battery_current_limit_A ?? Number.POSITIVE_INFINITY,
    on_ohm: assume(notes, `${path}.on_resistance`, definition.on_resistance_ohm, usually.on_resistance.default),
    standing_W: assume(notes, `${path}.standing_power`, definition.standing_power_W, usually.standing_power.default),
    cutout_V: cut,
    cutoutClears_V: cut + CLEARS_V_A_BATTERY * batteriesInSeries,
    cutoutDelay_s: assume(notes, `${path}.cutout_delay`, definition.cutout_delay_s, usually.cutout_delay.default),
    ramp_s: assume(notes, `${path}.ramp`, definition.ramp_s, usually.ramp.default),
    ...electricBrake(
      definition,
      chemistry ? usually.regen_voltage_limit.default.value[chemistry] * cells : Number.POSITIVE_INFINITY,
      notes,
    ),
  };
}

function electricBrake(definition: LocoDefinition["controller"], charged_V: number, notes: Notes) {
  const path = "loco.controller";
  const kind = assume(notes, `${path}.electric_brake`, definition.electric_brake, usually.electric_brake.default);
  const needs = {
    brake_resistance: "rheostatic",
    regen_current_limit: "regenerative",
    regen_voltage_limit: "regenerative",
  } as const;
  const given = {
    brake_resistance: definition.brake_resistance_ohm,
    regen_current_limit: definition.regen_current_limit_A,
    regen_voltage_limit: definition.regen_voltage_limit_V,
  };
  for (const [key, needed] of Object.entries(needs)) {
    if (given[key as keyof typeof given] !== undefined && kind !== needed) {
      notes.problems.push({ path: `${path}.${key}`, message: `this goes with electric_brake: ${needed}, not ${kind}` });
    }
  }
  const resistor_ohm = given.brake_resistance;
  const regenerative = kind === "regenerative" && Number.isFinite(charged_V);
  return {
    electricBrake: kind,
    brakeResistor_ohm:
      kind === "rheostatic"
        ? assume(notes, `${path}.brake_resistance`, resistor_ohm, usually.brake_resistance.default)
        : 0,
    regenLimit_A: given.regen_current_limit ?? Number.POSITIVE_INFINITY,
    regenLimit_V: regenerative
      ? assume(notes, `${path}.regen_voltage_limit`, given.regen_voltage_limit, charged_V)
      : (given.regen_voltage_limit ?? Number.POSITIVE_INFINITY),
  };
}
