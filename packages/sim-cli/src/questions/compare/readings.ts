import type { CompareAnswer } from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";
import { type Eyes, shortSpeed } from "../../words/eyes.js";

/** What `trial --readings` takes. */
export const READINGS = "readings.csv";

/** The steadiest piece of the log as a sheet of `trial` has it; nothing but its header where no lever was logged. */
export function readingsCsv({ steady }: CompareAnswer, eyes: Eyes): string {
  const rows: string[][] = [["reading", "value", "note"]];
  if (steady) {
    const told = (reading: string, value: number | null, unit: string) =>
      value === null ? [] : [[reading, `${Number(value.toPrecision(4))} ${unit}`, ""]];
    rows.push(
      ["run_place", `${steady.at_m.toFixed(1)} m`, `the steadiest piece of the log, ${eyes.place(steady.at_m)}`],
      ["run_lever", `${(100 * steady.duty).toFixed(0)} %`, ""],
      ["run_speed", shortSpeed(steady.speed_mps, eyes), ""],
      ...told("run_motor_amps", steady.motor_current_A, "A"),
      ...told("run_battery_amps", steady.battery_current_A, "A"),
      ...told("run_battery_volts", steady.battery_voltage_V, "V"),
    );
  }
  return stringify(rows);
}
