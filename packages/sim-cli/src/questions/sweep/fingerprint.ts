import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { version } from "../../ground/version.js";
import { keyOf } from "./axes.js";
import { type Sweep, setsOfCase } from "./grid.js";
import { readCase } from "./reading.js";

/** The same sweep of the same files has the same: what is written is gone on with, and put together, only by that. */
export function fingerprintOf(sweep: Sweep): string {
  const hash = createHash("sha256");
  hash.update(JSON.stringify([version(), { ...sweep, plan: "" }]));
  for (const file of filesRead(sweep)) hash.update(existsSync(file) ? readFileSync(file) : "");
  return hash.digest("hex").slice(0, 12);
}

/** Of the plan or its first case, and of every value of a key that names a file: a loco's file names others. */
export function filesRead(sweep: Sweep): string[] {
  const named = sweep.axes.flatMap(({ columns, rows }) =>
    columns.flatMap((column, i) => {
      if (!/^loco$|profile$|\.file$/.test(keyOf(column))) return [];
      const values = [...new Set(rows.map((row) => row[i] ?? ""))].filter((each) => each !== "");
      return values.flatMap((value) => readWith(sweep, column, value));
    }),
  );
  return [...new Set([...readFirst(sweep), ...named])];
}

/** What the plan reads with this value; what it cannot be read with is read all the same. */
function readWith(sweep: Sweep, column: string, value: string): readonly string[] {
  try {
    return [value, ...readCase(sweep, [...sweep.sets, `${keyOf(column)}=${value}`]).files];
  } catch {
    return [value];
  }
}

function readFirst(sweep: Sweep): readonly string[] {
  try {
    return readCase(sweep, sweep.sets).files;
  } catch {
    try {
      return readCase(sweep, setsOfCase(sweep, 0)).files;
    } catch {
      return [sweep.plan];
    }
  }
}
