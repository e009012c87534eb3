import {
  CAUSES,
  type CauseName,
  type Filled,
  type Priors,
  type SheetReading,
  type SheetStep,
  type Taken,
} from "@rideon/sim-core";
import { checkWidths, isUnparted, quotedCell, type Row, splitRows, type Tell, unknownColumn } from "./csv.js";
import { addProblem, type Diagnostic } from "./diagnostics.js";
import { nearest } from "./nearest.js";
import { ReadingError, readingIn } from "./readings.units.js";

const COLUMNS = ["reading", "value", "note"] as const;
const NEEDED = ["reading", "value"] as const;
/** A row of this beginning tells how much likelier than usual a cause is before anything is read. */
const PRIOR = "prior.";

/**
 * Reads a filled sheet of a first outing: comment lines begin with #, a header names `reading,value,note`, and a row with a
 * blank value was not taken.
 * @param sheet of the loco it was filled for: which readings there are, and their units
 * @returns the readings in the sheet's units, or nothing where `problems` says why
 */
export function readReadings(
  file: string,
  text: string,
  sheet: readonly Pick<SheetStep, "readings">[],
  problems: Diagnostic[],
): Filled | undefined {
  const told = problems.length;
  const tell: Tell = (line, message) => addProblem(problems, { file, line, message });
  const read = splitRows(text, tell);
  if (!read) return undefined;
  const [header, ...rows] = read;
  if (!header) {
    tell(1, `the file is empty; it begins with the header ${COLUMNS.join(",")}`);
    return undefined;
  }
  const places = placesOf(header, tell);
  if (!places) return undefined;
  // A row may stop after its value: notes are for people.
  const whole = (row: Row) => row.cells.length <= header.cells.length && row.cells[lastOf(places)] !== undefined;
  checkWidths(
    rows.filter((row) => !whole(row)),
    header.cells.length,
    tell,
  );
  const readings = new Map(sheet.flatMap((step) => step.readings.map((each) => [each.reading, each])));
  const filled = filledIn(rows.filter(whole), places, readings, tell);
  const good = problems.length === told;
  if (good && filled.taken.length === 0) tell(header.line, "value: no reading is filled in; write down what was read");
  return problems.length > told ? undefined : filled;
}

interface Places {
  reading: number;
  value: number;
}

const lastOf = ({ reading, value }: Places): number => Math.max(reading, value);

/** Where in a row reading and value stand; nothing, and told, where the header will not do. */
function placesOf(header: Row, tell: Tell): Places | undefined {
  const { line, cells } = header;
  if (isUnparted(header, tell)) return undefined;
  for (const [index, cell] of cells.entries()) {
    if (!COLUMNS.some((column) => column === cell)) tell(line, unknownColumn(cell, index, COLUMNS));
    else if (cells.indexOf(cell) < index) tell(line, `${cell} stands twice in the header`);
  }
  const missing = NEEDED.filter((name) => !cells.includes(name));
  if (missing.length === 0) return { reading: cells.indexOf("reading"), value: cells.indexOf("value") };
  tell(line, `columns are missing: ${missing.join(", ")}; the header is ${COLUMNS.join(",")}`);
  return undefined;
}

/** Every row's reading; what is wrong with one is told, and the others are read all the same. */
function filledIn(rows: readonly Row[], at: Places, readings: ReadonlyMap<string, SheetReading>, tell: Tell): Filled {
  const filled = { taken: [] as Taken[], priors: {} as Priors };
  const lines = new Map<string, number>();
  for (const { line, cells } of rows) {
    const [name = "", value = "", next = ""] = [cells[at.reading], cells[at.value], cells[at.value + 1]];
    const refuse = (message: string) => tell(line, message);
    const known = readings.get(name);
    const cause = name.startsWith(PRIOR) ? causeOf(name.slice(PRIOR.length), refuse) : undefined;
    if (!known && !name.startsWith(PRIOR)) refuse(unknownReading(name, [...readings.keys()]));
    if (!known && !cause) continue;
    const before = lines.get(name);
    if (before !== undefined && value !== "") refuse(`reading: ${name} stands on line ${before} already`);
    if (value === "" || before !== undefined) continue;
    lines.set(name, line);
    if (isParted(value, next)) {
      refuse(`value: ${name}: ${quotedCell(`${value},${next}`)} has a comma in it; write it with a point`);
      continue;
    }
    if (cause) filled.priors[cause] = priorIn(name, value, refuse);
    else if (known) takeInto(filled.taken, known, value, refuse);
  }
  return filled;
}

/** Half a number in each of two cells: a comma was meant for a point. */
const isParted = (value: string, next: string): boolean => /^\d+$/.test(value) && /^\d+(?: \S{1,3})?$/.test(next);

function takeInto(
  taken: Taken[],
  { reading, unit }: SheetReading,
  text: string,
  refuse: (message: string) => void,
): void {
  try {
    taken.push({ reading, value: readingIn(text, reading, unit) });
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    refuse(`value: ${reading}: ${error.message}`);
  }
}

function unknownReading(name: string, names: readonly string[]): string {
  if (name === "") return "reading: the cell is blank; it names a reading of the sheet";
  const near = nearest(name, names);
  const hint = near ? `did you mean ${near}?` : "rideon trial prints the sheet with their names";
  return `reading: ${name.slice(0, 60)} is not on this loco's sheet; ${hint}`;
}

function causeOf(name: string, refuse: (message: string) => void): CauseName | undefined {
  const cause = CAUSES.find((each) => each === name);
  if (cause) return cause;
  const near = nearest(name, CAUSES);
  refuse(
    `reading: ${PRIOR}${name.slice(0, 60)}: there is no such cause; ${near ? `did you mean ${PRIOR}${near}?` : `there are ${CAUSES.join(", ")}`}`,
  );
  return undefined;
}

/** `3`: three times as likely as usual. */
function priorIn(name: string, text: string, refuse: (message: string) => void): number {
  const value = /^\d*\.?\d+$/.test(text) ? Number(text) : Number.NaN;
  if (value > 0 && Number.isFinite(value)) return value;
  refuse(
    `value: ${name}: ${quotedCell(text)} is not a number above 0; it tells how much likelier than usual, such as 3 or 0.2`,
  );
  return 1;
}
