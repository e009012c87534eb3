import {
  type CompareAnswer,
  type Explanation,
  figures,
  keyAt,
  mistakenFor,
  type QuantityCompared,
} from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import type { Put } from "../../read/index.js";
import { ENDED_BY } from "../../words/endings.js";
import type { Eyes } from "../../words/eyes.js";
import { figureCalled } from "../../words/measure.js";
import type { Opened } from "../../words/ready.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, terminal } from "../../words/terminal.js";
import { type PutIn, pasted, withDoubt } from "../../work/into.js";
import { CALLED, differenceTold, moreTold, readingTold } from "./told.js";
import type { CompareWorked } from "./work.js";

type ComparedTold = Opened & CompareWorked & { puts: readonly Put[]; put: PutIn | undefined; log: string };

/** Does it agree, where does it not, what would explain it; and how the log was laid along the line. */
export function compareInWords(told: ComparedTold): string[] {
  const { answer, eyes, puts, put } = told;
  const screen = terminal();
  const inside = screen.columns - 2;
  const wrapped = (text: string) => wrap(text, screen.columns);
  const set = (texts: readonly string[]) => texts.flatMap((text) => wrap(text, inside));
  return [
    ...wrapped(headline(answer)).map((line) => painted(line, "bold", screen)),
    ...cutShort(answer, eyes).flatMap(wrapped),
    ...section(
      "In the mean, where the train was moving",
      table(quantityRows(answer, eyes), {
        width: inside,
        head: ["", "logged", "by the sums", "difference", "left open", ""],
        right: [1, 2],
      }),
    ),
    ...section("Where along the line it differs most", table(worstRows(answer, eyes), { width: inside })),
    ...section(
      answer.quantities.every(({ within_doubt }) => within_doubt)
        ? "What would take the difference away"
        : "What would explain it",
      set(explainedInWords(answer, eyes)),
    ),
    ...section("Fitted to this log", set(fittedInWords(answer))),
    ...(puts.length > 0 && !put ? section("To paste into the loco file", pasted(puts)) : []),
    ...(put ? section(`Changed in ${put.path}`, put.shown) : []),
    ...section("How the log lies along the line", set(laidInWords(told))),
    "",
    ...wrapped(CAUTION),
  ];
}

/** One sentence: do the sums and the loco agree? */
export function headline({ quantities, outcome }: CompareAnswer): string {
  if (outcome !== "completed") return "By the sums the train does not come as far as the real one did.";
  const telling = quantities.filter(({ name }) => name !== "speed");
  const off = quantities.filter(({ within_doubt }) => !within_doubt).map(({ name }) => CALLED[name]);
  if (off.length > 0)
    return `The loco does not agree with the sums: ${listed(off)} ${off.length === 1 && !/volts/.test(off[0] ?? "") ? "differs" : "differ"} by more than both leave open.`;
  if (telling.length === 0)
    return "The sums can run at the speed that was logged. Nothing else was logged, so nothing else is proved.";
  return "The loco agrees with the sums, as far as the doubt of both goes.";
}

function cutShort({ outcome, ended_by, came_m, distance_m, from_m }: CompareAnswer, eyes: Eyes): string[] {
  if (outcome === "completed") return [];
  const why = ended_by ? ENDED_BY[ended_by].it : "ends";
  return [
    `By the sums it ${why} after ${eyes.length(came_m)}, having begun at ${eyes.place(from_m)}; the log goes on to ${eyes.length(distance_m)}. What follows is about the part before.`,
  ];
}

export const quantityRows = ({ quantities }: CompareAnswer, eyes: Eyes): string[][] =>
  quantities.map((each) => [
    CALLED[each.name],
    readingTold(each.name, each.logged, eyes),
    readingTold(each.name, each.predicted, eyes),
    sameTold(each, eyes),
    `± ${differenceTold(each.name, each.doubt, eyes)}`,
    each.within_doubt ? "agrees" : "differs",
  ]);

/** Less than this of what is left open is no difference to speak of. */
const NONE = 0.02;

const sameTold = ({ name, bias, doubt }: QuantityCompared, eyes: Eyes): string =>
  Math.abs(bias) < NONE * doubt ? "the same" : moreTold(name, bias, eyes);

export const worstRows = ({ quantities }: CompareAnswer, eyes: Eyes): string[][] =>
  quantities
    .filter(({ name }) => name !== "speed" || quantities.length === 1)
    .map(({ name, worst, rms }) => [
      CALLED[name],
      `${moreTold(name, worst.difference, eyes)} from ${eyes.place(worst.from_m)}: ${Math.abs(worst.difference) <= worst.doubt ? "within" : "beyond"} the ${differenceTold(name, worst.doubt, eyes)} left open there. From piece to piece it differs by ${differenceTold(name, rms, eyes)} (rms).`,
    ]);

/** What a figure is worth in the unit of its key; of what has no single figure, a factor. */
export function figureTold({ path }: Explanation, value: number, eyes: Eyes): string {
  const key = keyAt(path.replaceAll(".*", ".1"));
  if (key?.kind === "quantity") return eyes.of(value, key.dimension);
  if (key?.kind === "number") return figures(value);
  return `${figures(value)} times`;
}

function explainedInWords({ explained_by, quantities }: CompareAnswer, eyes: Eyes): string[] {
  if (explained_by.length === 0)
    return quantities.every(({ within_doubt }) => within_doubt)
      ? []
      : [
          "No single figure of the files explains it. A drag that is in no figure would: a rubbing brake, a tight chain, a flat tyre of a bearing; or a meter that reads wrongly.",
        ];
  const rows = explained_by.map((each) => {
    const from =
      each.value === 1 && figureTold(each, 1, eyes) === "1 times"
        ? ""
        : `, taken as ${figureTold(each, each.value, eyes)}`;
    const likely = each.likely ? "" : " That is farther off than is likely of it.";
    return `${capital(figureCalled(each.path))}${from}: ${figureTold(each, each.would_be, eyes)} would take away ${partOf(each.share)} of it.${likely}`;
  });
  return explained_by.length > 1 ? [...rows, "Each of them by itself; the log does not tell which it is."] : rows;
}

const partOf = (share: number): string =>
  share > 0.9 ? "nearly all" : share > 0.6 ? "most" : share > 0.4 ? "about half" : "some";

function fittedInWords({ fitted = [], correlation = [] }: CompareAnswer): string[] {
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
      ];
}

function laidInWords({ answer, leftOut, repeated, gapLines, eyes }: ComparedTold): string[] {
  const { readings, time_s, distance_m, placed_by, laps, scale, from_m, stops, gaps, fell } = answer;
  const ratio = answer.speed_over_distance;
  return [
    `${readings} readings in ${eyes.of(time_s, "time")}: ${eyes.length(distance_m)} from ${eyes.place(from_m)}, placed by ${PLACED[placed_by]}.`,
    laps > 0 && scale !== null
      ? `${laps} lap${laps === 1 ? "" : "s"} from mark to mark, each made as long as the line: a metre of the log is ${figures(scale)} of the line's.`
      : placed_by === "laps"
        ? ""
        : "No laps are marked, so that an error of the wheel or the receiver adds up along the way. A button pressed at one place each lap would hold it.",
    ratio !== null && Math.abs(ratio - 1) > OFF
      ? `The speed added up makes ${figures(ratio)} times the distance${mistakenFor(ratio) || "; wheels that slip, or a clock that is off"}.`
      : "",
    stops > 0
      ? `${stops} stop${stops === 1 ? "" : "s"} on the way, waited for.`
      : "",
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

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const listed = (items: readonly string[]): string =>
  items.length < 2 ? (items[0] ?? "") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
