import { checkWidths, isUnparted, type Row, splitRows, type Tell, unknownColumn } from "../csv/csv.js";
import { addProblem, type Diagnostic } from "../diagnostics.js";
import { filledIn, isEmpty, type Known, knownOf, type Places, type ReadSheet } from "./rows.js";
import type { UnitWords } from "./units.js";

const COLUMNS = ["reading", "value", "note"] as const;
const NEEDED = ["reading", "value"] as const;

/**
 * Reads a filled sheet of a first outing: comment lines begin with #, a header names `reading,value,note`, and a row with a
 * blank value was not taken.
 * @param sheet of the loco it was filled for: which readings there are, and their units
 * @param units that bare numbers are in; metric ones unless told
 * @returns the readings in the sheet's units, or nothing where `problems` says why
 */
export function readReadings(
  file: string,
  text: string,
  sheet: readonly { readonly readings: readonly Known[] }[],
  problems: Diagnostic[],
  units?: UnitWords,
): ReadSheet | undefined {
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
  const filled = filledIn(rows.filter(whole), places, knownOf(sheet), tell, units);
  const good = problems.length === told;
  if (good && isEmpty(filled)) tell(header.line, "value: no reading is filled in; write down what was read");
  return problems.length > told ? undefined : filled;
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
