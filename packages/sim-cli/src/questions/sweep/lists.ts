import { figures } from "@rideon/sim-core";
import { casesTold } from "./cases.js";
import type { Found } from "./found.js";
import { outcomeTold } from "./headline.js";
import { kindTold } from "./lacks.js";
import { INVALID, UNFINISHED } from "./row.js";
import type { Columns, SweptRow } from "./rows.js";

/** A row each: the cases that have a lack, and what it is. */
export const lackRows = ({ lacks }: Found, room?: number): string[][] =>
  [...lacks].map(([kind, cases]) => [String(cases.count), casesTold(cases, room), kindTold(kind)]);
export const LACKS_HEAD = ["how many", "cases", "falls short"];

/** What did not come to its end or cannot be used: the first of them, and how many there are. */
export const failedIn = ({ failed, rows, outcomes }: Found): Failed => ({
  rows: failed,
  count: rows - (outcomes["completed"] ?? 0),
});

/** Of these, what cannot be used or was not finished. */
export const wrongIn = ({ wrong, outcomes }: Found): Failed => ({
  rows: wrong,
  count: (outcomes[INVALID] ?? 0) + (outcomes[UNFINISHED] ?? 0),
});

interface Failed {
  rows: readonly SweptRow[];
  count: number;
}

/** A row each: its settings, and how it ended or why. The last says how many more there are. */
export function failedRows({ rows, count }: Failed, { varied }: Columns, path: string | undefined): string[][] {
  const told = rows.map(({ number, settings, outcome, why }) => [
    String(number),
    ...settings,
    `${outcomeTold(outcome)}${why === "" ? "" : `: ${why}`}`,
  ]);
  const left = count - told.length;
  if (left === 0) return told;
  const where = path ? `${path} has them` : "--out writes them all";
  return [...told, ["…", ...varied.map(() => ""), `${left} more: ${where}`]];
}

/** Where a band is told of some of the draws alone, because the others have no such figure. */
export const bandLines = ({ rarely }: Found): string[] =>
  [...rarely].map(
    ([name, { cases, least }]) =>
      `The band of ${name} is that of the draws that have such a figure, and in ${cases.count === 1 ? "case" : "cases"} ${casesTold(cases)} fewer than nineteen in twenty have: ${figures(100 * least)} in a hundred at the least (column ${name}_told_in).`,
  );
