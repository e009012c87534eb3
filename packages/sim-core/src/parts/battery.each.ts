import { assume, type Notes, shown } from "../errors.js";
import { lookUp } from "../numeric/tables.js";
import { CHEMISTRY, type Chemistry, HOUR_s } from "./battery.data.js";
import { batteryKeys } from "./battery.keys.js";
import type { LocoDefinition } from "./files.keys.js";

type Definition = LocoDefinition["battery"];

const usually = batteryKeys.each.keys;

/** Cells in series in one battery. */
export function cellsOf(each: Definition["each"], chemistry: Chemistry, notes: Notes): number {
  if (chemistry === "other") return each.cells ?? Number.NaN;
  const { cell_V, cellAtLeast_V, cellAtMost_V } = CHEMISTRY[chemistry];
  const { leadAcid_V, lifepo4In12V } = usually.cells.default.value;
  // A lithium "12 V" is four cells of 3.2 V, and so on.
  const usual =
    chemistry === "lead-acid" ? each.voltage_V / leadAcid_V : lifepo4In12V * Math.round(each.voltage_V / 12);
  const fitting = (cells: number) =>
    Number.isInteger(cells) && each.voltage_V >= cellAtLeast_V * cells && each.voltage_V <= cellAtMost_V * cells;
  if (each.cells === undefined && fitting(usual)) return assume(notes, "loco.battery.each.cells", undefined, usual);
  if (each.cells !== undefined && fitting(each.cells)) return each.cells;
  const label = shown(each.voltage_V, "V");
  const span = `${chemistry} cells are rated ${cellAtLeast_V} to ${cellAtMost_V} V`;
  notes.problems.push(
    each.cells === undefined
      ? {
          path: "loco.battery.each.voltage",
          message: `${label} is no whole number of usual cells (${span}): give cells`,
        }
      : { path: "loco.battery.each.cells", message: `${each.cells} cells do not make ${label}: ${span}` },
  );
  return each.cells ?? Math.max(1, Math.round(each.voltage_V / cell_V));
}

/** Rested volts of one battery. */
export function restedOf(each: Definition["each"], chemistry: Chemistry, cells: number, notes: Notes) {
  const path = "loco.battery.each.rested_voltage";
  const given = each.rested_voltage;
  if (!given) {
    if (chemistry === "other") {
      notes.problems.push({ path: "loco.battery", message: "give chemistry, or each.rested_voltage for any other" });
      return [[0, each.voltage_V] as const, [1, each.voltage_V] as const];
    }
    assume<string>(notes, path, undefined, usually.rested_voltage.default.words);
    const { rested, restedCells } = CHEMISTRY[chemistry];
    return rested.map(([share, volts]) => [share, (volts * cells) / restedCells] as const);
  }
  const refuse = (message: string) => notes.problems.push({ path, message });
  if (given.length < 2 || given[0][0] !== 0 || given[given.length - 1][0] !== 1)
    refuse("must go from share 0 to share 1");
  for (let i = 1; i < given.length; i++) {
    if (!(given[i][0] > given[i - 1][0])) refuse(`shares must grow: ${shown(given[i][0])} is out of order`);
    if (!(given[i][1] >= given[i - 1][1])) refuse(`the volts fall at share ${shown(given[i][0])}`);
  }
  const ratio = given[given.length - 1][1] / each.voltage_V;
  if (ratio < 0.9 || ratio > 1.35) {
    refuse(
      `${shown(given[given.length - 1][1], "V")} when full does not suit a battery of ${shown(each.voltage_V, "V")}`,
    );
  }
  return given;
}

export function resistanceOf(
  each: Definition["each"],
  chemistry: Chemistry,
  cells: number,
  label_C: number,
  notes: Notes,
): number {
  const path = "loco.battery.each.resistance";
  if (each.resistance_ohm !== undefined) return each.resistance_ohm;
  if (chemistry === "other") {
    notes.problems.push({ path, message: "has a default for lead-acid and lifepo4 only: give it" });
    return 1;
  }
  const ohmAh = usually.resistance.default.value[chemistry];
  return assume(notes, path, undefined, (ohmAh / (label_C / HOUR_s)) * (cells / CHEMISTRY[chemistry].resistanceCells));
}

/** What this air makes of a battery's capacity and resistance at 25 °C, as factors. A chemistry not known is not corrected. */
export function inTheCold(
  chemistry: Chemistry,
  air_degC: number,
  notes: Notes,
): { capacity: number; resistance: number } {
  if (chemistry === "other") return { capacity: 1, resistance: 1 };
  const { warmth, resistanceInAir } = CHEMISTRY[chemistry];
  const coldest_degC = warmth.x[0];
  if (air_degC < coldest_degC) {
    const message = `how much less it gives below ${shown(coldest_degC, "°C")} is not known: the figures there are used, which flatters`;
    notes.warnings.push({ code: "battery_cold", path: "plan.air_temperature", message });
  }
  return { capacity: lookUp(warmth, air_degC), resistance: lookUp(resistanceInAir, air_degC) };
}
