import { formatGradient, formatPercent } from "@rideon/sim-core";
import { CAUTION } from "../../ground/caution.js";
import { assumedNote } from "../../words/notes.js";
import { rail, several } from "../../words/setting.js";
import { section, table, wrap } from "../../words/table.js";
import { painted, plain, terminal } from "../../words/terminal.js";
import { rankedLines } from "./ranked/lines.js";
import { rankedWords } from "./ranked/ranked.js";
import type { FaultTable } from "./sheet/faults.js";
import { shortSafetyWords } from "./sheet/safety.js";
import { type SheetWords, type StepWords, sheetWords } from "./sheet/sheet.js";
import type { TrialTold } from "./told.js";

/** The sheet of a first outing; with a filled one, the causes that it makes likely instead. */
export function trialInWords(told: TrialTold): readonly string[] {
  const screen = terminal();
  const { columns } = screen;
  const { causes } = told.answer;
  const [first = "", ...lines] = causes
    ? rankedLines(rankedWords(told, causes), told, columns)
    : sheetLines(sheetWords(told), told, columns);
  const headline = causes ? first : plain(titleWords(told));
  return [
    ...wrap(headline, columns).map((line) => painted(line, "bold", screen)),
    ...wrap(outingWords(told), columns),
    ...(causes ? lines : [first, ...lines]),
    "",
    ...(told.quiet ? [] : wrap(assumedNote(told.notes), columns)),
    ...wrap(CAUTION, columns),
  ];
}

/** `First outing: Teasel, Ostlemere, a quiet Sunday`; the loco alone where the plan has no name of its own. */
export const titleWords = ({ plan, reading: { loco } }: TrialTold): string =>
  `First outing: ${loco.name}${plan.name === loco.name ? "" : `, ${plan.name}`}`;

/** What the figures are for: the loco by itself, the train, and the day. */
export function outingWords({ plan, answer, reading, eyes }: TrialTold): string {
  const cars = plan.train.vehicles.length - 1;
  const train = `${cars === 0 ? "and" : `and with ${several(cars, "car")} and`} its driver, no passengers`;
  const steepest = formatGradient(answer.steepest_percent / 100);
  const steep = steepest === "level" ? "level all round" : `steepest ${steepest}, curves counted in`;
  return `For the loco by itself ${train}: ${rail(reading.plan)}, battery at ${formatPercent(plan.charge)}, ${eyes.of(plan.air_degC, "temperature")}; ${steep}.`;
}

function sheetLines(words: SheetWords, told: TrialTold, columns: number): string[] {
  const inside = columns - 2;
  if (!told.answer.long) return shortLines(words, told, inside);
  return [
    ...section(
      "SAFETY FIRST",
      table(
        words.safety.map((text, i) => [`${i + 1}.`, text]),
        { width: inside },
      ),
    ),
    ...section(
      "How the sheet is read",
      [words.meters, words.bands, words.afterwards].flatMap((text) => wrap(text, inside)),
    ),
    ...words.steps.flatMap((step) => [
      ...section(step.title, stepLines(step, inside)),
      ...(step.step === "looks" ? stillLines(words, inside) : []),
    ]),
    "",
    ...wrap("WHAT IT COULD BE: for each sign, what a sound loco reads and what every cause would.", columns),
    ...words.faults.flatMap((fault) => section(fault.title, faultLines(fault, inside))),
  ];
}

/** The short sheet: safety, the looks, the way to go when it does not move, and a dozen readings. */
function shortLines(words: SheetWords, told: TrialTold, width: number): string[] {
  const looks = words.steps.filter(({ step }) => step === "looks");
  const others = words.steps.filter(({ step, readings }) => step !== "looks" && readings.length > 0);
  const rows = others.map(({ title, how, readings }) => ({
    heading: wrap(`${title.replace(/^\d+\. /, "")}. ${how}`, width),
    cells: readings.map(({ reading, label, expected, band }) => [reading, expected, band, label]),
  }));
  // All the readings in one table, so that their columns stand below each other; each step's heading goes between.
  const lines = table(
    rows.flatMap(({ cells }) => cells),
    { width, head: ["reading", "should be", "between", ""], right: [1] },
  );
  let next = 1;
  return [
    ...section(
      "SAFETY FIRST",
      shortSafetyWords(told).flatMap((text) => wrap(`- ${text}`, width)),
    ),
    ...looks.flatMap(({ title, how, readings }) =>
      section(title.replace(/^\d+\. /, ""), [
        ...wrap(how, width),
        ...table(
          readings.map(({ reading, what }) => [reading, what]),
          { width },
        ),
      ]),
    ),
    ...stillLines(words, width),
    ...section("The readings", [
      lines[0] ?? "",
      ...rows.flatMap(({ heading, cells }) => {
        const own = lines.slice(next, next + cells.length);
        next += cells.length;
        return [...heading, ...own];
      }),
    ]),
    "",
    ...wrap(`${words.meters} ${words.afterwards}`, width + 2),
  ];
}

const stillLines = ({ still }: SheetWords, width: number): string[] =>
  still === undefined
    ? []
    : section(still.title, [
        ...wrap(still.how, width),
        ...still.finds.flatMap(({ found, means }) => wrap(`- ${found}: ${means}`, width)),
      ]);

const BLANK = "______";
const HEAD = ["reading", "should be", "between", "read"];

function stepLines({ caution, how, checks, readings }: StepWords, width: number): string[] {
  return [
    ...wrap(`! ${caution}`, width),
    ...wrap(how, width),
    ...table(
      checks.map((check) => ["[ ]", check]),
      { width },
    ),
    ...(readings.length === 0 ? [] : ["", ...readingLines(readings, width)]),
  ];
}

/** Figures in columns, and below each line what to read; on a narrow terminal line by line. */
function readingLines(readings: StepWords["readings"], width: number): string[] {
  const rows = readings.map(({ reading, expected, band, yesOrNo }) => [
    reading,
    expected,
    band,
    yesOrNo ? "yes / no" : BLANK,
  ]);
  const [head = "", ...columns] = table(rows, { width, head: HEAD, right: [1] });
  const fits = columns.length === rows.length;
  const lines = rows.map((row, i) => (fits ? [columns[i] ?? ""] : table([row], { width })));
  const below = ({ what }: StepWords["readings"][number]) => wrap(what, width - 4).map((line) => `    ${line}`);
  return [...(fits ? [head] : []), ...readings.flatMap((each, i) => [...(lines[i] ?? []), ...below(each)])];
}

/** Columns by letters: the names of readings are longer than their values. */
function faultLines({ readings, rows }: FaultTable, width: number): string[] {
  const letters = readings.map((_, i) => String.fromCharCode("A".charCodeAt(0) + i));
  const key = readings.map((reading, i) => `${letters[i]} ${reading}`).join(", ");
  const body = rows.map(({ what, toldBy, values }) => [...values, toldBy === "" ? what : `${what} [${toldBy}]`]);
  return [
    ...wrap(key, width),
    ...table(body, {
      width,
      head: [...letters, "what is wrong [the reading that tells it best]"],
      right: letters.map((_, i) => i),
    }),
  ];
}
