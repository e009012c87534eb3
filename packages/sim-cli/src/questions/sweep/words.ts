import { figures, needsNoDrive, type SweptCase, type SweptFigure } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { listed } from "../../words/lists.js";
import { several } from "../../words/setting.js";
import { fits, section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { grid } from "./chart.js";
import type { Found } from "./found.js";
import { INVALID, UNFINISHED } from "./row.js";
import type { SweptRow } from "./rows.js";

const ENDED: Readonly<Record<string, string>> = {
  completed: "completed",
  [INVALID]: "cannot be used",
  [UNFINISHED]: "could not be finished",
};

/** What a case falls short of, as it is said of it. */
export const SHORT: Readonly<Record<string, string>> = {
  restarts: "does not start again on the steepest bit",
  stops_in_sight: "does not stop within sight",
  may_carry: "may carry nobody",
  charge_lasts: "has a charge that does not last",
  chosen_gears_will_do: "finds no sprockets that will do",
  own_gears_will_do: "has gears that will not do",
  grips_dry: "slips before it starts again, even on dry rail",
  sized_loco_runs: "does not run here when it is built to these figures",
  all_to_be_had: "wants a brake, breaker, cable or battery larger than there is",
  survey_good_enough: "stands on a survey too rough to judge by",
  shafts_will_do: "has a shaft, or something on one, that will not do",
  parts_will_do: "has a part that will not do",
  wiring_will_do: "has something to put right between battery and motor",
};

export const shortTold = ({ short }: SweptRow): string => listed(short.map((name) => SHORT[name] ?? name));

/** `1.23`, `yes`; of what is not there, a dash. */
export function valueTold(value: SweptCase["figures"][string] | undefined): string {
  if (value === null || value === undefined) return "–";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "string" ? value : figures(value);
}

/** How they ended, which are best, and what stands in the way of the others. */
export function sweepInWords(found: Found, complete: number): string[] {
  const { outcomes, wanted, wrong, short } = found;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const beside = sideBySide(found, inside);
  const unasked = notAsked(found);
  return [
    ...wrapped(endedTold(found, complete)).map((line) => painted(line, "bold", screen)),
    ...wrapped(headline(found)),
    ...section("Side by side", beside),
    ...section(
      `The best by ${wanted.best.name}, ${wanted.best.better === "more" ? "the most" : "the least"} first`,
      beside.length > 0 ? [] : bestTable(found, inside),
    ),
    ...section(`${wanted.best.name} of every case`, beside.length > 0 ? [] : grid(found, inside)),
    ...section(
      "Cases that came to nothing",
      wrong
        .flatMap(({ number, why }) => wrap(`${number}: ${why}`, inside))
        .concat(
          (outcomes[INVALID] ?? 0) + (outcomes[UNFINISHED] ?? 0) > wrong.length
            ? ["…: the CSV has the rest (--out)."]
            : [],
        ),
    ),
    ...(short > 0
      ? [
          "",
          ...wrapped(
            `Of those that completed, ${several(short, "case")} ${short === 1 ? "falls" : "fall"} short of something, which the column falls_short names.`,
          ),
        ]
      : []),
    ...(unasked === "" ? [] : ["", ...wrapped(unasked)]),
    "",
    ...wrapped(CAUTION),
  ];
}

/** `18 cases: 16 completed and 2 stalled.` */
export function endedTold({ rows, outcomes }: Found, complete: number): string {
  const ended = Object.entries(outcomes).map(
    ([outcome, count]) => `${count} ${ENDED[outcome] ?? outcome.replaceAll("_", " ")}`,
  );
  return `${several(rows, "case")}${rows < complete ? ` of ${complete}` : ""}: ${listed(ended)}.`;
}

export function headline({ best: [first], wanted: { best, needs } }: Found): string {
  const of = needs.length > 0 ? ` that has ${listed(needs.map(({ text }) => text))}` : "";
  if (!first) return `No case${of} has a figure ${best.name}.`;
  const lacks =
    first.short.length > 0
      ? `, but it ${shortTold(first)}, as do all others that have one: none of them is without a lack`
      : "";
  return `The best${of} is case ${first.number}: ${best.name} ${valueTold(first.figures[best.name])}${lacks}.`;
}

/** So few are told with every figure. */
const MOST_BESIDE = 5;

/** A column a case, a row a figure. */
function sideBySide({ drawn, rows, columns }: Found, width: number): string[] {
  if (rows > MOST_BESIDE) return [];
  const told = (of: (row: SweptRow) => string) => drawn.map(of);
  const lines = [
    ...columns.varied.map((key, i) => [key, ...told(({ settings }) => short(settings[i] ?? ""))]),
    ...columns.figures.map(({ name }) => [name, ...told((row) => valueTold(row.figures[name]))]),
    ["ended", ...told(({ outcome }) => ENDED[outcome] ?? outcome.replaceAll("_", " "))],
    ["falls short", ...told((row) => (row.short.length === 0 ? "–" : row.short.join(", ")))],
  ];
  const head = ["case", ...told(({ number }) => String(number))];
  return fits([head, ...lines], width) ? table(lines, { width, head }) : [];
}

/** The end of a path tells more than its beginning. */
const short = (text: string): string => (text.length <= LONGEST ? text : `…${text.slice(1 - LONGEST)}`);
const LONGEST = 20;

function bestTable({ best, wanted, columns }: Found, width: number): string[] {
  if (best.length === 0) return [];
  // The figure they are ranked by first, then what they must have, then the rest as far as the terminal goes.
  const named = new Set(wanted.needs.map(({ text }) => /^[\w.]+/.exec(text)?.[0] ?? ""));
  const others = columns.figures.filter(({ name }) => name !== wanted.best.name);
  const shown: SweptFigure[] = [wanted.best, ...others.filter(({ name }) => named.has(name))];
  const lacks = best.some(({ short }) => short.length > 0);
  const head = ["case", ...columns.varied, ...shown.map(({ name }) => name), ...(lacks ? ["but"] : [])];
  const rows = best.map((row) => [
    String(row.number),
    ...row.settings,
    ...shown.map(({ name }) => valueTold(row.figures[name])),
    ...(lacks ? [shortTold(row)] : []),
  ]);
  return table(rows, { width, head, right: [0, ...shown.map((_, i) => 1 + columns.varied.length + i)] });
}

/** Whatever was not asked may still stand in the way. */
export function notAsked({ columns: { figures: asked } }: Found): string {
  const questions = new Set(asked.map(({ question }) => question));
  // Of a loco that has no drive yet there is nothing to ask them.
  if (questions.has("limits") || needsNoDrive([...questions])) return "";
  const lacking = [
    questions.has("climb") ? "" : "start again on the steepest bit",
    questions.has("brakes") ? "" : "stop in time",
  ].filter((each) => each !== "");
  if (lacking.length === 0) return "";
  return `Whether they ${lacking.join(" and ")} was not asked: --ask limits tells what each may carry.`;
}
