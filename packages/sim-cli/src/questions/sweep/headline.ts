import { listed } from "../../words/lists.js";
import { several } from "../../words/setting.js";
import type { Found } from "./found.js";
import { lacksOf, lackTold } from "./lacks.js";
import { INVALID, UNFINISHED } from "./row.js";
import type { SweptRow } from "./rows.js";
import { fallsShort } from "./rows.js";
import { valueTold } from "./values.js";
import type { Need } from "./wanted.js";

const ENDED: Readonly<Record<string, string>> = {
  completed: "completed",
  slipping: "stand with wheels spinning",
  [INVALID]: "cannot be used",
  [UNFINISHED]: "could not be finished",
};

/** How a case ended, in words: `stalled`. */
export const outcomeTold = (outcome: string): string => ENDED[outcome] ?? outcome.replaceAll("_", " ");

/** `18 cases: 16 completed and 2 stalled.` */
export function endedTold({ rows, outcomes }: Found, complete: number): string {
  if (complete === 0) return "No case: this share has none of them.";
  if (rows === 0) return `None of ${several(complete, "case")} is done.`;
  const ended = Object.entries(outcomes).map(([outcome, count]) => `${count} ${outcomeTold(outcome)}`);
  return `${several(rows, "case")}${rows < complete ? ` of ${complete}` : ""}: ${listed(ended)}.`;
}

/** Which is the best, how many are as good, and what it lacks; or what none of them has. */
export function headline(found: Found): string {
  const {
    best: [first],
    ties,
    rows,
    wanted: { best, needs },
  } = found;
  if (rows === 0) return "";
  const of = needs.length > 0 ? ` that has ${listed(needs.map(({ text }) => text))}` : "";
  if (!first) return found.outcomes["completed"] ? `No case has a figure ${best.name}.` : "No case came to its end.";
  const figure = valueTold(first.figures[best.name]);
  if (first.missed.length > 0) return unmet(found).join(" ");
  if (!fallsShort(first))
    return ties > 1
      ? `${several(ties, "case")} tie for the best${of}, the first of them case ${first.number}: ${best.name} ${figure}.`
      : `The best${of} is case ${first.number}: ${best.name} ${figure}.`;
  const also = ties > 1 ? `, first of ${ties} that tie` : "";
  return `No case${of} is without a lack. The least bad by ${best.name} is case ${first.number}${also}, with ${figure}: it ${listed(lacksOf(first))}.`;
}

/** `No case meets stops_m<1; the nearest is case 1, 10.7.` */
function unmet({ wanted: { needs }, needs: seen }: Found): string[] {
  const none = needs.flatMap((need, i) =>
    seen[i]?.met === 0 ? [`No case meets ${need.text}${nearestTold(need, seen[i].nearest)}.`] : [],
  );
  if (none.length > 0 || needs.length === 0) return none;
  return [`No case meets ${listed(needs.map(({ text }) => text))} together.`];
}

function nearestTold({ name }: Need, row: SweptRow | undefined): string {
  if (!row) return "";
  const lacks = row.short.map(lackTold);
  return `; the nearest is case ${row.number}, ${valueTold(row.figures[name])}${lacks.length > 0 ? `, and it ${listed(lacks)}` : ""}`;
}
