import type { MotorTables } from "@rideon/sim-core";
import { checkWidths, isUnparted, numberOf, type Row, splitRows, type Tell, unknownColumn } from "./csv/csv.js";
import { type Diagnostic, tellFirst } from "./diagnostics.js";

/** A table that the motor names a file of, by the key that names it. */
export type TableName = keyof MotorTables;

/** A table as read: its rows in SI, and the line of the file on which each stands. */
export interface MotorTable {
  name: TableName;
  file: string;
  rows: readonly (readonly number[])[];
  lines: readonly number[];
}

/** The columns, in the order of a row's numbers, and the size of their unit in SI. */
const COLUMNS: Readonly<Record<TableName, readonly (readonly [name: string, size: number])[]>> = {
  curve: [
    ["torque_Nm", 1],
    ["speed_rpm", Math.PI / 30],
    ["current_A", 1],
  ],
  saturation: [
    ["current_A", 1],
    ["emf_V", 1],
  ],
};

/** Where the file of each is named. */
export const TABLES: readonly TableName[] = ["curve", "saturation"];

/**
 * Reads a table of the motor: comment lines begin with #, a header names its columns in any order, every cell is a number.
 * @returns the rows, or nothing where `problems` says why
 */
export const readMotorTable =
  (name: TableName) =>
  (file: string, text: string, problems: Diagnostic[]): MotorTable | undefined => {
    const told = problems.length;
    const tell = tellFirst(file, problems);
    const read = splitRows(text, tell);
    if (!read) return undefined;
    const [header, ...rows] = read;
    const names = COLUMNS[name].map(([column]) => column);
    if (!header) {
      tell(1, `the file is empty; it begins with the header ${names.join(",")}`);
      return undefined;
    }
    const places = placesOf(header, names, tell);
    if (rows.length === 0) tell(header.line, "no row follows the header");
    checkWidths(rows, header.cells.length, tell);
    const numbers = rows.map((row) =>
      COLUMNS[name].map(([column, size], i) => size * cellOf(row, column, places[i] ?? -1, tell)),
    );
    return problems.length > told ? undefined : { name, file, rows: numbers, lines: rows.map(({ line }) => line) };
  };

/** Where in a row each column stands. */
function placesOf(header: Row, names: readonly string[], tell: Tell): number[] {
  const { line, cells } = header;
  if (isUnparted(header, tell)) return [];
  for (const [index, cell] of cells.entries()) {
    if (!names.includes(cell)) tell(line, unknownColumn(cell, index, names));
    else if (cells.indexOf(cell) < index) tell(line, `${cell} stands twice in the header`);
  }
  const missing = names.filter((name) => !cells.includes(name));
  if (missing.length > 0) tell(line, `columns are missing: ${missing.join(", ")}; the header is ${names.join(",")}`);
  return names.map((name) => cells.indexOf(name));
}

/** The cell's number; a row too short is told already. */
function cellOf({ line, cells }: Row, column: string, place: number, tell: Tell): number {
  const text = cells[place];
  return text === undefined ? Number.NaN : numberOf(text, (message) => tell(line, `${column}: ${message}`));
}
