import { assume, type Notes, shown } from "../errors.js";
import { motorKeys } from "./motor.keys.js";
import { completeRating, type Definition, type MotorFigures, STAND_IN } from "./motor.rating.js";
import type { SaturationRow } from "./motor.tables.js";

type Given<K extends keyof Definition> = NonNullable<Definition[K]>;
type Plate = Given<"nameplate">;

/**
 * Rated volts, amps, speed and shaft power: T = P/ω, k = T/(I - I0), R = (V - k ω - V_brush)/I. The resistance is an
 * effective one with the stray losses in it, above what a meter reads on the cold motor; it is taken as at 20 °C.
 *
 * A series motor's plate says nothing of its iron: flux grows with current up to rated and stays level above it.
 */
export function fromNameplate(
  plate: Plate,
  kind: "permanent-magnet" | "series",
  brush_V: number,
  notes: Notes,
): MotorFigures {
  const { voltage_V, current_A, speed_radps, power_W } = plate;
  const free_A = kind === "series" ? noFreeCurrent(plate, notes) : freeCurrent(plate, notes);
  const flux_NmpA = power_W / speed_radps / (current_A - free_A);
  const back_V = flux_NmpA * speed_radps;
  const rated = { voltage_V, current_A, speed_radps, power_W };
  if (kind === "series") notes.warnings.push(FROM_PLATE);
  const fault = plateFault(plate, free_A, back_V, brush_V);
  if (fault) {
    notes.problems.push(fault);
    return { ...STAND_IN, rated };
  }
  return {
    resistance_ohm: (voltage_V - back_V - brush_V) / current_A,
    flux:
      kind === "series"
        ? [
            [0, 0],
            [current_A, flux_NmpA],
          ]
        : [[0, flux_NmpA]],
    drag_Nm: flux_NmpA * free_A,
    dragPerSpeed_Nms: 0,
    rated,
  };
}

/** Flux that went on growing would double the starting torque of a saturated motor: the cautious side is taken. */
const FROM_PLATE = {
  code: "series_from_plate",
  path: "loco.motor.nameplate",
  message:
    "a series motor's plate says nothing of its iron: flux is taken to grow with current up to rated and to stay level above it, which is the cautious side for its pull; give magnetisation points (saturation) or a curve",
};

function freeCurrent({ no_load_current_A, current_A }: Plate, notes: Notes): number {
  const share = motorKeys.nameplate.keys.no_load_current.default.value;
  return assume(notes, "loco.motor.nameplate.no_load_current", no_load_current_A, share * current_A);
}

function noFreeCurrent(plate: Plate, notes: Notes): 0 {
  if (plate.no_load_current_A !== undefined) {
    const message = "a series motor must never turn free and has no such current: leave it out";
    notes.problems.push({ path: "loco.motor.nameplate.no_load_current", message });
  }
  return 0;
}

/** The first way in which a nameplate contradicts itself. */
function plateFault(plate: Plate, free_A: number, back_V: number, brush_V: number) {
  const at = "loco.motor.nameplate";
  const { voltage_V, current_A, power_W } = plate;
  const output = shown(power_W, "W");
  const input_W = voltage_V * current_A;
  if (power_W >= input_W) {
    return { path: `${at}.power`, message: `${output} out of ${shown(input_W, "W")} in: the efficiency is over 1` };
  }
  if (free_A >= current_A) {
    const message = `${shown(free_A, "A")} turning free is not below the rated ${shown(current_A, "A")}`;
    return { path: `${at}.no_load_current`, message };
  }
  if (back_V >= voltage_V) {
    const most = shown(voltage_V * (current_A - free_A), "W");
    const message = `with ${shown(free_A, "A")} of no-load current the shaft gets less than ${most}, not ${output}`;
    return { path: `${at}.power`, message };
  }
  if (back_V + brush_V >= voltage_V) {
    const message = `the back-e.m.f. is ${shown(back_V, "V")} of ${shown(voltage_V, "V")}: this leaves none for the winding`;
    return { path: "loco.motor.brush_drop", message };
  }
  return undefined;
}

/** The motor's constants as a maker prints them. */
export function fromConstants(
  constants: Given<"constants">,
  rated: Definition["rated"],
  brush_V: number,
  notes: Notes,
): MotorFigures {
  const at = "loco.motor.constants";
  const { drag, drag_per_speed } = motorKeys.constants.keys;
  const figures = {
    resistance_ohm: constants.resistance_ohm,
    flux: [[0, constants.torque_constant_NmpA]] as const,
    drag_Nm: assume(notes, `${at}.drag`, constants.drag_Nm, drag.default),
    dragPerSpeed_Nms: assume(notes, `${at}.drag_per_speed`, constants.drag_per_speed_Nms, drag_per_speed.default),
  };
  return { ...figures, rated: completeRating(figures, rated, brush_V, notes) };
}

/**
 * Three meter readings: R = (V - V_brush)/I with the shaft locked, k = (V - I R - V_brush)/ω turning free, and all the
 * torque of the free current is drag. Both currents are taken as above the brushes' knee, the winding as at 20 °C.
 */
export function fromBench(
  bench: Given<"bench">,
  rated: Definition["rated"],
  brush_V: number,
  notes: Notes,
): MotorFigures {
  const { free, locked } = bench;
  const resistance_ohm = (locked.voltage_V - brush_V) / locked.current_A;
  if (resistance_ohm <= 0) {
    const message = `${shown(locked.voltage_V, "V")} does not cover the brushes' ${shown(brush_V, "V")}`;
    notes.problems.push({ path: "loco.motor.bench.locked.voltage", message });
    return STAND_IN;
  }
  const lost_V = free.current_A * resistance_ohm + brush_V;
  if (lost_V >= free.voltage_V) {
    const message = `by the locked reading winding and brushes take ${shown(lost_V, "V")}: none is left for turning`;
    notes.problems.push({ path: "loco.motor.bench.free.voltage", message });
    return STAND_IN;
  }
  const flux_NmpA = (free.voltage_V - lost_V) / free.speed_radps;
  const figures = {
    resistance_ohm,
    flux: [[0, flux_NmpA]] as const,
    drag_Nm: flux_NmpA * free.current_A,
    dragPerSpeed_Nms: 0,
  };
  return { ...figures, rated: completeRating(figures, rated, brush_V, notes) };
}

/** Magnetisation points of a series motor, e.m.f. against current at one speed: k(I) = E(I)/ω, from nothing at 0 A. */
export function fromSaturation(
  saturation: Given<"saturation">,
  rows: readonly SaturationRow[],
  rated: Definition["rated"],
  brush_V: number,
  notes: Notes,
): MotorFigures {
  const told = notes.problems.length;
  refuseSaturation(rows, notes);
  if (notes.problems.length > told) return STAND_IN;
  const flux = rows.map(([current_A, emf_V]) => [current_A, emf_V / saturation.speed_radps] as const);
  if (flux[0][0] > 0) flux.unshift([0, 0]);
  const figures = { resistance_ohm: saturation.resistance_ohm, flux, drag_Nm: 0, dragPerSpeed_Nms: 0 };
  return { ...figures, rated: completeRating(figures, rated, brush_V, notes) };
}

/** Current must rise from row to row and the e.m.f. must not fall: whatever does otherwise is told at its row. */
function refuseSaturation(rows: readonly SaturationRow[], notes: Notes): void {
  const at = "loco.motor.saturation";
  const refuse = (key: string, message: string) => notes.problems.push({ path: `${at}.${key}`, message });
  if (!rows.some(([current_A, emf_V]) => current_A > 0 && emf_V > 0)) {
    refuse("file", "no row has a current and an e.m.f. above 0");
  }
  for (const [i, [current_A, emf_V]] of rows.entries()) {
    const [before_A, before_V] = i > 0 ? rows[i - 1] : [Number.NEGATIVE_INFINITY, 0];
    if (current_A < 0) refuse(`${i + 1}.current_A`, `${shown(current_A, "A")} is below 0`);
    else if (current_A <= before_A) {
      refuse(
        `${i + 1}.current_A`,
        `${shown(current_A, "A")} is no more than ${shown(before_A, "A")} in the row before`,
      );
    }
    if (emf_V < 0) refuse(`${i + 1}.emf_V`, `${shown(emf_V, "V")} is below 0`);
    else if (emf_V < before_V) {
      const message = `${shown(emf_V, "V")} is below ${shown(before_V, "V")} in the row before: more current gives more flux`;
      refuse(`${i + 1}.emf_V`, message);
    }
  }
}
