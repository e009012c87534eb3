import { lackIn } from "@rideon/sim-core";
import type { Found } from "./found.js";
import { outcomeTold } from "./headline.js";
import { lackTold } from "./lacks.js";
import type { SweptRow } from "./rows.js";
import { wentWell } from "./rows.js";

/** Figures that are null for a reason that stands in a column of its own. */
const BESIDE: Readonly<Record<string, string>> = { runs_on_m: "with_no_brake" };

/** Lacks that leave a question without its figure. */
const NO_FIGURE: Readonly<Record<string, readonly string[]>> = {
  stops_m: ["no_brake", "cannot_be_stopped", "rolls_back_braked"],
  passengers_it_can_restart: ["restarts_not_even_empty"],
  chosen_restart_gradient_percent: ["chosen_gears_will_do"],
};

/** Why a case has not the figure that is ranked by, in a word or two: `stalled`, `runs away`. */
export function whyNone(row: SweptRow, { wanted: { best } }: Found): string {
  if (!wentWell(row)) return outcomeTold(row.outcome);
  const beside = row.figures[BESIDE[best.name] ?? ""];
  if (typeof beside === "string") return beside;
  const lack = row.short.find((each) => NO_FIGURE[best.name]?.includes(lackIn(each).lack));
  return lack ? lackTold(lack).replace(/^has /, "") : `no ${best.name}`;
}

/** Of cases without the figure, the reasons and how many have each, the commonest first. */
export function reasonsOf(rows: readonly SweptRow[], found: Found): { why: string; rows: SweptRow[] }[] {
  const reasons = new Map<string, SweptRow[]>();
  for (const row of rows) {
    const why = whyNone(row, found);
    const known = reasons.get(why) ?? [];
    reasons.set(why, known);
    known.push(row);
  }
  return [...reasons].map(([why, each]) => ({ why, rows: each })).sort((a, b) => b.rows.length - a.rows.length);
}
