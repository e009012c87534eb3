import { type PullRow, quantity } from "@rideon/sim-core";
import { numberOf } from "../csv/csv.js";
import { headed } from "../csv/headed.js";
import type { Diagnostic } from "../diagnostics.js";

/** What a spring balance is marked in; a kilogram on it is a kilogram's weight. */
export const PULL_UNITS = { N: 1, kgf: quantity("1 kgf", "force"), lbf: quantity("1 lbf", "force") } as const;

const FORCES = (["steady", "starting"] as const).flatMap((what) =>
  Object.entries(PULL_UNITS).map(([unit, size]) => [`${what}_${unit}`, { what, size, unit }] as const),
);
const COLUMNS = new Map<string, { what: "steady" | "starting"; size: number; unit: string } | "direction" | "note">([
  ["direction", "direction"],
  ...FORCES,
  ["note", "note"],
]);

/** Pulls by spring balance, and the line of each. */
export interface Pulls {
  rows: PullRow[];
  lines: number[];
  /** In which each column was read. */
  units: { steady: string; starting: string };
}

/**
 * Reads pulls: comment lines begin with #, a header names `direction` and `steady_N`, `starting_N` (or `_kgf`, `_lbf`), a row
 * for each pull.
 * @returns them in newtons, or nothing where `problems` says why
 */
export function readPulls(file: string, text: string, problems: Diagnostic[]): Pulls | undefined {
  const sheet = headed(file, text, COLUMNS, "direction,steady_N,starting_N", problems);
  if (!sheet) return undefined;
  const { header, rows, columns, tell } = sheet;
  for (const what of ["steady", "starting"] as const)
    if (columns.filter((each) => typeof each === "object" && each.what === what).length > 1)
      tell(header.line, `the ${what} pull stands in two columns; keep one of them`);
  if (!columns.includes("direction"))
    tell(header.line, "a column direction is missing: out and back over the same place");
  if (!columns.some((each) => typeof each === "object"))
    tell(header.line, "a column of pulls is missing: steady_N or starting_N, or _kgf or _lbf");
  const read = rows.map(({ cells, line }) => {
    const row: PullRow = { direction: "", steady_N: null, starting_N: null };
    for (const [i, column] of columns.entries()) {
      const cell = cells[i] ?? "";
      if (column === "direction") {
        if (cell === "") tell(line, "direction: the cell is blank; out or back is wanted");
        row.direction = cell.toLowerCase();
      } else if (typeof column === "object" && cell !== "") {
        const value = numberOf(cell, (message) => tell(line, `${header.cells[i]}: ${message}`)) * column.size;
        if (value < 0)
          tell(
            line,
            `${header.cells[i]}: a balance reads no less than 0; which way it was pulled says the direction. Where the train runs off by itself and has to be held back, choose a flatter place`,
          );
        row[`${column.what}_N`] = value;
      }
    }
    return row;
  });
  const unitOf = (what: "steady" | "starting") =>
    columns.flatMap((each) => (typeof each === "object" && each.what === what ? [each.unit] : []))[0] ?? "N";
  const units = { steady: unitOf("steady"), starting: unitOf("starting") };
  return problems.length > 0 ? undefined : { rows: read, lines: rows.map(({ line }) => line), units };
}
