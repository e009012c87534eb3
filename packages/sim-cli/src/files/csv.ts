import type { TraceRow } from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";
import type { DetailedEvent } from "../words/events.js";
import { writeAll } from "./files.js";

/** Columns of trace.csv, in this order. */
export const TRACE_COLUMNS = [
  "time_s",
  "lap",
  "chainage_m",
  "distance_m",
  "speed_mps",
  "wheel_speed_mps",
  "acceleration_mps2",
  "mode",
  "lever",
  "duty",
  "limited_by",
  "motor_current_A",
  "motor_voltage_V",
  "motor_speed_rpm",
  "battery_current_A",
  "battery_voltage_V",
  "state_of_charge",
  "available_share",
  "tractive_force_N",
  "gradient_force_N",
  "curve_force_N",
  "rolling_force_N",
  "air_force_N",
  "brake_force_N",
  "adhesion_used",
  "winding_temperature_C",
  "case_temperature_C",
  "breaker_heating",
  "height_m",
  "gradient_percent",
  "passengers",
] as const satisfies readonly (keyof TraceRow)[];

/** Columns of events.csv, in this order. */
const EVENT_COLUMNS = [
  "time_s",
  "lap",
  "chainage_m",
  "kind",
  "detail",
] as const satisfies readonly (keyof DetailedEvent)[];

/** The whole of events.csv: what happened in words; its numbers are in the JSON. */
export const eventsCsv = (events: readonly DetailedEvent[]): string =>
  csvText([EVENT_COLUMNS, ...events.map((event) => EVENT_COLUMNS.map((column) => event[column]))]);

const DIGITS = 7;
/** Written in pieces, so that a day's trace is never in memory as a whole. */
const PIECE_rows = 500;

/** Text that a spreadsheet would take for a formula is escaped; what does not exist is left blank. */
export const csvText = (rows: readonly (readonly unknown[])[]): string =>
  stringify(rows as unknown[], {
    escape_formulas: true,
    cast: { number: (value) => (Number.isFinite(value) ? String(Number(value.toPrecision(DIGITS))) : "") },
  });

/** A CSV file written row by row. */
export interface CsvWriter<Row> {
  row(row: Row): void;
  /** Writes what is still held back. The file stays open. */
  end(): void;
}

export function csvWriter<Row>(file: number, columns: readonly (keyof Row & string)[]): CsvWriter<Row> {
  let held: unknown[][] = [[...columns]];
  const flush = () => {
    if (held.length > 0) writeAll(file, csvText(held));
    held = [];
  };
  return {
    row(row) {
      held.push(columns.map((column) => row[column]));
      if (held.length >= PIECE_rows) flush();
    },
    end: flush,
  };
}
