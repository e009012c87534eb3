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

/** Every key that an event of any kind has. */
type KeyOf<E> = E extends E ? keyof E : never;

/** Columns of events.csv, in this order: what every event has, then the numbers that only some have. */
const EVENT_COLUMNS = Object.keys({
  time_s: true,
  lap: true,
  chainage_m: true,
  kind: true,
  detail: true,
  by: true,
  place: true,
  vehicle: true,
  passengers: true,
  laps_done: true,
  energy_Wh: true,
  speed_mps: true,
  wanted_speed_mps: true,
  shut_off: true,
  within_m: true,
  short_m: true,
  gravity_N: true,
  asked_N: true,
  grip_N: true,
  motor_current_A: true,
  battery_current_A: true,
  limited_by: true,
  rolled_back: true,
  spinning: true,
  pull_N: true,
  needed_N: true,
  trip_s: true,
  too_hot_s: true,
  thermal_runaway: true,
  device: true,
  element: true,
  rating_A: true,
  limit_A: true,
  cutout_voltage_V: true,
  cutout_delay_s: true,
  low_voltage_V: true,
  limit_temperature_C: true,
  winding_temperature_C: true,
} satisfies Record<KeyOf<DetailedEvent>, true>);

/** The whole of events.csv. */
export const eventsCsv = (events: readonly DetailedEvent[]): string =>
  csvText([EVENT_COLUMNS, ...events.map((event) => EVENT_COLUMNS.map((column) => cell(event, column)))]);

function cell(event: object, column: string): unknown {
  const value = (event as Record<string, unknown>)[column];
  return typeof value === "boolean" ? (value ? "yes" : "no") : value;
}

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
