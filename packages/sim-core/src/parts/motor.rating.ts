import { type Notes, shown } from "../errors.js";
import type { LocoDefinition } from "./files.keys.js";

export type Definition = LocoDefinition["motor"];

/** What a motor is rated for; NaN where unknown. The power is the shaft's. */
export interface Rating {
  readonly voltage_V: number;
  readonly current_A: number;
  readonly speed_radps: number;
  readonly power_W: number;
}

/** What any set of figures comes down to, for one motor at 20 °C. */
export interface MotorFigures {
  readonly resistance_ohm: number;
  /** Flux at a few currents, straight between them and level beyond the last. */
  readonly flux: readonly (readonly [current_A: number, flux_NmpA: number])[];
  readonly drag_Nm: number;
  readonly dragPerSpeed_Nms: number;
  readonly rated: Rating;
}

/** Stands in for a motor that could not be made, so that the other parts can still be looked at. */
export const STAND_IN: MotorFigures = {
  resistance_ohm: 1,
  flux: [[0, 1]],
  drag_Nm: 0,
  dragPerSpeed_Nms: 0,
  rated: { voltage_V: 1, current_A: 1, speed_radps: 1, power_W: 1 },
};

/** Hot copper and hot magnets together move a motor's volts about this far from its figures at 20 °C. */
const VOLTS_WITHIN = 0.15;

export function fluxAt(points: MotorFigures["flux"], current_A: number): number {
  let [from_A, from_NmpA] = points[0];
  for (const [to_A, to_NmpA] of points) {
    if (current_A <= to_A) {
      const along = to_A > from_A ? (current_A - from_A) / (to_A - from_A) : 1;
      return from_NmpA + (to_NmpA - from_NmpA) * along;
    }
    [from_A, from_NmpA] = [to_A, to_NmpA];
  }
  return from_NmpA;
}

/**
 * Completes the rating beside constants, bench readings or a curve: any two of volts, amps and speed give the third by the
 * motor's own equations, and the shaft's power. Less than two leave it unknown.
 */
export function completeRating(
  figures: Omit<MotorFigures, "rated">,
  given: Definition["rated"],
  brush_V: number,
  notes: Notes,
): Rating {
  const { resistance_ohm, flux, drag_Nm, dragPerSpeed_Nms } = figures;
  let { voltage_V = Number.NaN, current_A = Number.NaN, speed_radps = Number.NaN } = given ?? {};
  const refuse = (key: string, message: string): Rating => {
    notes.problems.push({ path: `loco.motor.rated.${key}`, message });
    // A power to go on with, so that what hangs on it is not told as a second problem.
    return { voltage_V, current_A, speed_radps, power_W: 1 };
  };
  const all = voltage_V > 0 && current_A > 0 && speed_radps > 0;
  // The flux of a series motor hangs on the current: its speed alone does not give that.
  if (Number.isNaN(current_A) && flux.length === 1) {
    current_A = (voltage_V - flux[0][1] * speed_radps - brush_V) / resistance_ohm;
    if (current_A <= 0) return refuse("speed", `the back-e.m.f. there is above ${shown(voltage_V - brush_V, "V")}`);
  }
  const flux_NmpA = fluxAt(flux, current_A);
  const lost_V = resistance_ohm * current_A + brush_V;
  if (lost_V >= voltage_V) {
    return refuse("current", `winding and brushes alone take ${shown(lost_V, "V")} at it, of ${shown(voltage_V, "V")}`);
  }
  if (Number.isNaN(speed_radps)) speed_radps = (voltage_V - lost_V) / flux_NmpA;
  const needed_V = flux_NmpA * speed_radps + lost_V;
  if (all && Math.abs(needed_V - voltage_V) > VOLTS_WITHIN * voltage_V) {
    return refuse("voltage", `the motor's figures need ${shown(needed_V, "V")} for rated current at rated speed`);
  }
  if (Number.isNaN(voltage_V)) voltage_V = needed_V;
  const shaft_Nm = flux_NmpA * current_A - drag_Nm - dragPerSpeed_Nms * speed_radps;
  if (shaft_Nm <= 0) return refuse("current", `${shown(current_A, "A")} does not cover the motor's own drag`);
  return { voltage_V, current_A, speed_radps, power_W: shaft_Nm * speed_radps };
}

/**
 * A rating for a motor that has none beside its constants or readings: an eighth of its stall current at its rated or
 * the battery's volts. Common practice, no source: 24 to 48 V motors of 250 to 1000 W are rated at 0.12 to 0.17 of it.
 */
export function guessedRating(figures: MotorFigures, battery_V: number, notes: Notes): Rating {
  const { resistance_ohm, flux, drag_Nm, dragPerSpeed_Nms, rated } = figures;
  const voltage_V = rated.voltage_V > 0 ? rated.voltage_V : battery_V;
  const current_A = rated.current_A > 0 ? rated.current_A : voltage_V / resistance_ohm / 8;
  const flux_NmpA = fluxAt(flux, current_A);
  const speed_radps = (voltage_V - resistance_ohm * current_A) / flux_NmpA;
  const power_W = Math.max(1, (flux_NmpA * current_A - drag_Nm - dragPerSpeed_Nms * speed_radps) * speed_radps);
  notes.assumed.push({
    key: "loco.motor.rated",
    value: `${shown(current_A, "A")} at ${shown(voltage_V, "V")}, ${shown(power_W, "W")} at the shaft`,
    source: "an eighth of the stall current: common practice, no source; give two of rated voltage, current and speed",
  });
  return { voltage_V, current_A, speed_radps, power_W };
}
