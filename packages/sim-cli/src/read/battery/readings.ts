import { BATTERY_READINGS, type BatteryRow, nearest, quoted } from "@rideon/sim-core";
import { numberOf } from "../csv/csv.js";
import { headed } from "../csv/headed.js";
import type { Diagnostic } from "../diagnostics.js";

type Measure = "reading" | "voltage" | "current" | "charge" | "note";

const COLUMNS = new Map<string, { measure: Measure; size: number }>([
  ["reading", { measure: "reading", size: 1 }],
  ["voltage_V", { measure: "voltage", size: 1 }],
  ["current_A", { measure: "current", size: 1 }],
  ["charge_Ah", { measure: "charge", size: 3600 }],
  ["note", { measure: "note", size: 1 }],
]);

/** Readings of a battery, the line of each, and how finely its meters were read. */
export interface BatterySheet {
  rows: BatteryRow[];
  lines: number[];
  voltageStep_V: number;
  currentStep_A: number;
}

/**
 * Reads a battery's sheet: comment lines begin with #, a header names `reading,voltage_V,current_A,charge_Ah`, a row for each
 * reading: rested, load, emptied.
 * @returns it in SI units, or nothing where `problems` says why
 */
export function readBattery(file: string, text: string, problems: Diagnostic[]): BatterySheet | undefined {
  const sheet = headed(file, text, COLUMNS, "reading,voltage_V,current_A,charge_Ah", problems);
  if (!sheet) return undefined;
  const { header, rows, columns, tell } = sheet;
  for (const measure of ["reading", "voltage"] as const)
    if (!columns.some((each) => each?.measure === measure))
      tell(
        header.line,
        `a column of ${measure} is missing; the header is such as reading,voltage_V,current_A,charge_Ah`,
      );
  const cellsOf = (measure: Measure, cells: readonly string[]): string =>
    cells[columns.findIndex((each) => each?.measure === measure)] ?? "";
  const read = rows.map(({ cells, line }): BatteryRow => {
    const number = (measure: Measure): number | null => {
      const i = columns.findIndex((each) => each?.measure === measure);
      const cell = cells[i] ?? "";
      if (cell === "") return null;
      return numberOf(cell, (message) => tell(line, `${header.cells[i]}: ${message}`)) * (columns[i]?.size ?? 1);
    };
    const word = cellsOf("reading", cells).toLowerCase();
    const reading = BATTERY_READINGS.find((each) => each === word);
    if (!reading) {
      const near = nearest(word, BATTERY_READINGS);
      tell(
        line,
        `reading: ${quoted(word)} is none of ${BATTERY_READINGS.join(", ")}${near ? `; did you mean ${near}?` : ""}`,
      );
    }
    return {
      reading: reading ?? "rested",
      voltage_V: number("voltage"),
      current_A: number("current"),
      charge_C: number("charge"),
    };
  });
  if (problems.length > 0) return undefined;
  return {
    rows: read,
    lines: rows.map(({ line }) => line),
    voltageStep_V: stepOf(rows.map(({ cells }) => cellsOf("voltage", cells))),
    currentStep_A: stepOf(rows.map(({ cells }) => cellsOf("current", cells))),
  };
}

/** What the last figure of a meter counts, by the cell with most of them: 0.01 of 25.10 and 24.8. */
function stepOf(cells: readonly string[]): number {
  const decimals = cells.filter((cell) => cell !== "").map((cell) => (cell.split(".")[1] ?? "").length);
  return decimals.length === 0 ? 0 : 10 ** -Math.max(...decimals);
}
