import { figures, mistakenFor } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import type { Put } from "../../read/index.js";
import { capital } from "../../words/lists.js";
import { figureCalled } from "../../words/measure.js";
import type { Opened } from "../../words/ready.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { type PutIn, pasted, withDoubt } from "../../work/into.js";
import { explainedInWords, explainedUnder } from "./explained.js";
import { cutShort, flattered, headline, quantityRows, SHORT, strayedInWords, worstRows } from "./judged.js";
import { CALLED, differenceTold } from "./told.js";
import type { CompareWorked } from "./work.js";

type ComparedTold = Opened & CompareWorked & { puts: readonly Put[]; put: PutIn | undefined };

/** Does it agree, where does it not, what would explain it; and how the log was laid along the line. */
export function compareInWords(told: ComparedTold): string[] {
  const { answer, eyes, puts, put } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const set = (texts: readonly string[]) => texts.flatMap((text) => wrap(text, inside));
  const some = answer.quantities.length > 0;
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...[...cutShort(answer, eyes), ...strayedInWords(answer, eyes), ...flattered(answer, eyes)].flatMap(wrapped),
    ...section(
      "In the mean, where the train was moving",
      some
        ? table(quantityRows(answer, eyes, SHORT), {
            width: inside,
            head: ["", "logged", "sums", "difference", "left open", ""],
            right: [1, 2],
          })
        : [],
    ),
    ...section("Where along the line it differs most", some ? table(worstRows(answer, eyes), { width: inside }) : []),
    ...section(explainedUnder(answer), set(explainedInWords(answer, eyes))),
    ...section("Fitted to this log", set(fittedInWords(told))),
    ...(puts.length > 0 && !put ? section("To paste into the loco file", pasted(puts)) : []),
    ...(put ? section(`Changed in ${put.path}`, put.shown) : []),
    ...section("How the log lies along the line", set(laidInWords(told))),
    "",
    ...wrapped(CAUTION),
  ];
}

function fittedInWords({
  answer: { fitted = [], correlation = [], differs_still = [] },
  eyes,
}: ComparedTold): string[] {
  const told = fitted.map((each) => `${capital(figureCalled(each.path))}: ${withDoubt(each)}.`);
  const pairs = fitted.flatMap(({ path }, j) =>
    fitted.slice(0, j).map((other, k) => {
      const r = correlation[j]?.[k] ?? 0;
      return `${capital(figureCalled(path))} and ${figureCalled(other.path)} are told apart ${Math.abs(r) > 0.7 ? "poorly" : "well"} (correlation ${r.toFixed(2)}).`;
    }),
  );
  return told.length === 0
    ? []
    : [
        ...told,
        ...pairs,
        "Nineteen in twenty lie within, with the doubt of every other figure and of the meters counted in.",
        ...differs_still.map(
          ({ name, difference, doubt, from_m }) =>
            `Then ${CALLED[name]} still differs by ${differenceTold(name, difference, eyes)} ${from_m === null ? "in the mean" : `from ${eyes.place(from_m)}`}, where ${differenceTold(name, doubt, eyes)} is left open: these figures are put nowhere until it is known why.`,
        ),
      ];
}

function laidInWords({ answer, leftOut, repeated, gapLines, eyes, plan }: ComparedTold): string[] {
  const { readings, time_s, distance_m, placed_by, compared_m, laps, scale, from_m, stops, gaps, fell } = answer;
  const ratio = answer.speed_over_distance;
  return [
    `${readings} readings in ${eyes.of(time_s, "time")}: ${eyes.length(distance_m)}, begun at ${eyes.place(from_m)} and placed by ${PLACED[placed_by]}. ${compared_m > 0 ? `Current, volts or duty are compared over ${eyes.length(compared_m)} of it.` : ""}`.trim(),
    laps > 0 && scale !== null
      ? `${laps} lap${laps === 1 ? "" : "s"} from mark to mark, each made as long as the line${placed_by === "laps" ? "" : `: a metre of the log is ${figures(scale)} of the line's`}.`
      : placed_by === "laps" || plan.track.kind !== "circuit"
        ? ""
        : "No laps are marked, so that an error of the wheel or the receiver adds up along the way. A button pressed at one place each lap would hold it.",
    ratio !== null && Math.abs(ratio - 1) > OFF
      ? `The speed added up makes ${figures(ratio)} times the distance${mistakenFor(ratio) || "; wheels that slip, or a clock that is off"}.`
      : "",
    stops > 0 ? `${stops} stop${stops === 1 ? "" : "s"} on the way, waited for.` : "",
    "Where it speeds up or slows down fast, nothing is compared: that tells of the driver.",
    gaps.length > 0
      ? `${gaps.length} gap${gaps.length === 1 ? "" : "s"} in the readings, the first of ${eyes.of(gaps[0]?.for_s ?? 0, "time")} before line ${gapLines[0]}: what was done in ${gaps.length === 1 ? "it" : "them"} is guessed.`
      : "",
    repeated > 0 ? `${repeated} rows at the same time as the one before are left out.` : "",
    fell > 0 ? `The distance falls at ${fell} readings; the train is taken to have stood there.` : "",
    leftOut.length > 0 ? `Columns left out: ${leftOut.join(", ")}.` : "",
  ].filter((text) => text !== "");
}

/** Wheels slip by less. */
const OFF = 0.05;

const PLACED = {
  distance: "its distance",
  speed: "its speed, added up",
  laps: "the lap marks alone, at one speed between them, which is rough",
} as const;
