import { section, table, wrap } from "../../../words/table.js";
import { takenWords } from "../sheet/taken.js";
import type { TrialTold } from "../told.js";
import type { RankedWords } from "./ranked.js";

/** The causes ranked, as lines of text: what to do first of all, then why. */
export function rankedLines(
  { headline, causes, runnerUp, notThese, remedy, next, priors }: RankedWords,
  told: TrialTold,
  columns: number,
) {
  const inside = columns - 2;
  const rows = causes.flatMap(({ chance, what, evidence }) => [
    [chance, what],
    ...evidence.map((each) => ["", `- ${each}`]),
  ]);
  const [second, ...why] = runnerUp;
  return [
    headline,
    ...section(remedy.heading, wrap(remedy.text, inside)),
    ...section("What was read", [
      ...takenLines(told, inside),
      ...told.remarks.flatMap((each) => wrap(`- ${each}`, inside)),
    ]),
    ...section("Likely causes", [...table(rows, { width: inside }), ...(priors === "" ? [] : wrap(priors, inside))]),
    ...section(
      "The next likeliest",
      second === undefined ? [] : [...wrap(second, inside), ...why.flatMap((each) => wrap(`- ${each}`, inside))],
    ),
    ...section(
      "Why not the others",
      notThese.flatMap((each) => wrap(`- ${each}`, inside)),
    ),
    ...section(next?.heading ?? "Read next", nextLines(next, inside)),
  ];
}

function takenLines(told: TrialTold, width: number): string[] {
  const rows = takenWords(told).map(({ reading, read, expected, band, outside }) => [
    reading,
    read,
    expected,
    band,
    outside ? "OUTSIDE" : "",
  ]);
  return table(rows, { width, head: ["reading", "read", "should be", "between", ""], right: [1, 2] });
}

/** Where the cause is beyond doubt, or everything has been read. */
export const NOTHING_LEFT = "Nothing more to read: do what stands above, and then take the sheet again.";

function nextLines(next: RankedWords["next"], width: number): string[] {
  if (next === undefined) return wrap(NOTHING_LEFT, width);
  const rows = next.would.map(({ cause, value }) => [cause, value]);
  return [
    ...wrap(`${next.reading}. ${next.what}`, width),
    ...wrap(`! ${next.caution}`, width),
    ...table(rows, { width, head: ["if it is", "it reads"] }),
  ];
}
