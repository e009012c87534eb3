import { cut, nearest } from "@rideon/sim-core";
import { isUnparted, type Row, type Tell } from "../csv/csv.js";
import { BOOK_COLUMNS, type BookMeasure, COLUMNS_IN_WORDS } from "./columns.js";

/** The ways to take heights, of which a file has one: the columns that each cannot do without. */
const WAYS: readonly (readonly BookMeasure[])[] = [
  ["backsight", "foresight"],
  ["tube_back", "tube_ahead"],
  ["slope", "distance"],
];

/** What each column holds; nothing, and told, where the header will not do. */
export function measuresOf(header: Row, tell: Tell): (BookMeasure | undefined)[] | undefined {
  if (isUnparted(header, tell)) return undefined;
  let good = true;
  const refuse = (message: string) => {
    tell(header.line, message);
    good = false;
  };
  const measures = header.cells.map((name) => BOOK_COLUMNS.get(name)?.measure);
  for (const message of unknown(header.cells)) refuse(message);
  for (const [i, measure] of measures.entries())
    if (measure && measures.indexOf(measure) < i)
      refuse(`${header.cells[i]} cannot stand beside ${header.cells[measures.indexOf(measure)]}; keep one of them`);
  const ways = WAYS.filter(([first]) => measures.includes(first));
  // A column that is only called otherwise is told already.
  if (ways.length === 0 && good)
    refuse(
      "there are no readings: a levelling book has backsight and foresight, a water tube tube_back and tube_ahead, an inclinometer slope_degrees or slope_percent, each with its unit",
    );
  else if (ways.length > 1) refuse("readings of two kinds stand side by side; keep each in a file of its own");
  for (const missing of good ? ways.flat().filter((measure) => !measures.includes(measure)) : [])
    refuse(`a column of ${missing.replace("_", " ")} is missing, such as ${missing}_m`);
  return good ? measures : undefined;
}

/** What surveyors head their columns with, and the column that is meant. */
const MEANT: readonly (readonly [said: RegExp, column: string])[] = [
  [/^(bs|b\.s\.|back.?sight)$/i, "backsight_m"],
  [/^(is|i\.s\.|int|inter(mediate)?(.?sight)?)$/i, "intermediate_m"],
  [/^(fs|f\.s\.|fore.?sight)$/i, "foresight_m"],
  [/^(rl|r\.l\.|reduced.?level|level|elevation|bench.?mark|bm)$/i, "known_level_m, of bench marks alone"],
  [/^(ch|chainage|dist(ance)?|stationing)$/i, "distance_m"],
  [/^(remarks?|notes?|stations?|points?|description)$/i, "place"],
];
/** What is worked out from the readings. */
const WORKED_OUT = /^(hi|h\.i\.|hpc|height of (collimation|instrument)|rises?|falls?|adjust(ed|ment)|corrections?)$/i;

/** Of names that are like none, so many are told. */
const MOST_TOLD = 5;

/** What is said of cells that name no column: each with what may be meant, and all that are like none in one line. */
function unknown(cells: readonly string[]): string[] {
  const names = [...BOOK_COLUMNS.keys()];
  const strange: string[] = [];
  const messages = cells.flatMap((cell, i) => {
    if (BOOK_COLUMNS.has(cell)) return [];
    if (cell === "") return [`column ${i + 1} has no name in the header`];
    if (WORKED_OUT.test(cell)) return [`${cell} is worked out here, and is no column of a book; leave it out`];
    const meant = MEANT.find(([said]) => said.test(cell))?.[1] ?? nearest(cell, names);
    if (meant === undefined) strange.push(cut(cell));
    return meant === undefined ? [] : [`${cut(cell)} is not a column; did you mean ${meant}?`];
  });
  const [one] = strange;
  if (one === undefined) return messages;
  const more = strange.length - MOST_TOLD;
  const listed = strange.slice(0, MOST_TOLD).join(", ") + (more > 0 ? ` and ${more} more` : "");
  return [
    ...messages,
    `${listed} ${strange.length === 1 ? "is not a column" : "are not columns"}; there are ${COLUMNS_IN_WORDS}`,
  ];
}
