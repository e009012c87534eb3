import { createPlan, type LogColumns, runOnce, type TraceRow } from "../../packages/sim-core/src/index.js";
import type { PlanFiles } from "../../packages/sim-core/src/studies/limits/limits.js";
import { draws } from "./draws.js";

/** How far what a log reads is off: standard deviations from reading to reading, and a meter's own gain. */
export interface Rough {
  speed_mps?: number;
  current_A?: number;
  voltage_V?: number;
  gain?: number;
  seed?: number;
}

/** Rows of a run of these files, one a second, each at a time of its own. */
export function rowsOf(files: PlanFiles, laps: number): TraceRow[] {
  const rows: TraceRow[] = [];
  const plan = createPlan({ ...files.plan, laps }, files.loco, files.track, files.tables);
  runOnce(plan, { every_s: 1, onRow: (row) => void (row.time_s > (rows.at(-1)?.time_s ?? -1) && rows.push(row)) });
  return rows;
}

/** The log that a logger would make of them. */
export function logOf(rows: readonly TraceRow[], rough: Rough = {}): LogColumns {
  const { speed_mps = 0, current_A = 0, voltage_V = 0, gain = 0, seed = 1 } = rough;
  const { normal } = draws(seed);
  const column = (of: (row: TraceRow) => number) => Float64Array.from(rows, of);
  return {
    time_s: column((row) => 1000 + row.time_s),
    speed: column((row) => Math.max(0, row.speed_mps + speed_mps * normal())),
    battery_current: column((row) => (1 + gain) * row.battery_current_A + current_A * normal()),
    motor_current: column((row) => (1 + gain) * row.motor_current_A + current_A * normal()),
    battery_voltage: column((row) => row.battery_voltage_V + voltage_V * normal()),
    temperature: column((row) => row.case_temperature_C),
    duty: column((row) => row.duty),
  };
}
