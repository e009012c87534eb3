import { figures, folded, list, paragraph, safe } from "../../html/html.js";
import { bandRows, chanceLines, figureCalled, measuredRows } from "../../words/sureness.js";
import type { Told } from "./told.js";

/** How sure the answers are, and what to measure first. */
export function sureHtml({ sureness, eyes, plan, limits: { logged } }: Told): string {
  if (!sureness) return paragraph("How sure the answers are was not looked at.");
  const [first = ""] = Object.keys(sureness.bands);
  const rows = measuredRows(sureness, { notes: plan.notes, eyes }).map(
    ([what, share, how]) => `${what}, ${share}: ${how}`,
  );
  return [
    ...(logged
      ? [
          paragraph(
            "This is of the sums alone: what was logged is counted in stops, by how freely the train rolls, and in nothing else.",
          ),
        ]
      : []),
    folded("Of a hundred such trains", chanceLines(sureness).join(" ")),
    figures("What nine in ten lie within", ["Figure", "middle", "nine in ten"], bandRows(sureness, eyes)),
    rows.length === 0
      ? ""
      : `<details><summary>What to measure first: shares of the spread of ${safe(figureCalled(first))}</summary>${list(rows)}</details>`,
  ].join("\n");
}
