import { type CoastRow, FOOT_m, KMH_mps, MPH_mps } from "@rideon/sim-core";
import { numberOf } from "../csv/csv.js";
import { headed } from "../csv/headed.js";
import type { Diagnostic } from "../diagnostics.js";

/** What speeds and distances are read in. */
export const COAST_UNITS = {
  speed: { "m/s": 1, "km/h": KMH_mps, mph: MPH_mps },
  distance: { m: 1, ft: FOOT_m },
} as const;

type Measure = "run" | "direction" | "time" | "speed" | "distance" | "from" | "note";

const COLUMNS = new Map<string, { measure: Measure; size: number }>([
  ["run", { measure: "run", size: 1 }],
  ["direction", { measure: "direction", size: 1 }],
  ["time_s", { measure: "time", size: 1 }],
  ["speed_mps", { measure: "speed", size: 1 }],
  ["speed_kmh", { measure: "speed", size: KMH_mps }],
  ["speed_mph", { measure: "speed", size: MPH_mps }],
  ["distance_m", { measure: "distance", size: 1 }],
  ["distance_ft", { measure: "distance", size: FOOT_m }],
  ["from_m", { measure: "from", size: 1 }],
  ["from_ft", { measure: "from", size: FOOT_m }],
  ["note", { measure: "note", size: 1 }],
]);

/** Readings of runs that coast, and the line of each. */
export interface Coasting {
  rows: CoastRow[];
  lines: number[];
  /** What was read, and the unit it was read in. */
  read: { what: "speed" | "distance"; unit: string };
}

/**
 * Reads runs: comment lines begin with #, a header names `run,direction,time_s` and speed or distance with its unit, a row for
 * each reading.
 * @returns them in SI units, or nothing where `problems` says why
 */
export function readCoasting(file: string, text: string, problems: Diagnostic[]): Coasting | undefined {
  const sheet = headed(file, text, COLUMNS, "run,direction,time_s,speed_mph", problems);
  if (!sheet) return undefined;
  const { header, rows, columns, tell } = sheet;
  const has = (measure: Measure) => columns.filter((each) => each?.measure === measure).length;
  for (const measure of ["run", "direction", "time"] as const)
    if (has(measure) === 0)
      tell(header.line, `a column of ${measure} is missing; the header is such as run,direction,time_s,speed_mph`);
  if (has("speed") + has("distance") !== 1)
    tell(header.line, "one column of speed or of distance is wanted, such as speed_mph or distance_m");
  if (problems.length > 0) return undefined;
  const read = rows.map(({ cells, line }): CoastRow => {
    const cell = (measure: Measure) => {
      const i = columns.findIndex((each) => each?.measure === measure);
      return { text: cells[i] ?? "", name: header.cells[i] ?? "", size: columns[i]?.size ?? 1 };
    };
    const number = (measure: Measure): number => {
      const { text: found, name, size } = cell(measure);
      return numberOf(found, (message) => tell(line, `${name}: ${message}`)) * size;
    };
    const words = (measure: Measure): string => {
      const { text: found } = cell(measure);
      if (found === "") tell(line, `${measure}: the cell is blank`);
      return found.toLowerCase();
    };
    return {
      run: words("run"),
      direction: words("direction"),
      time_s: number("time"),
      speed_mps: has("speed") > 0 ? number("speed") : null,
      distance_m: has("distance") > 0 ? number("distance") : null,
      from_m: has("from") > 0 && cell("from").text !== "" ? number("from") : null,
    };
  });
  const what = has("speed") > 0 ? "speed" : "distance";
  const size = columns.find((each) => each?.measure === what)?.size;
  const unit = Object.entries(COAST_UNITS[what]).find((each) => each[1] === size)?.[0] ?? "";
  return problems.length > 0 ? undefined : { rows: read, lines: rows.map(({ line }) => line), read: { what, unit } };
}
