import { nearest, quoted } from "@rideon/sim-core";
import { markIn, type Shown, smallMarkIn, withPoints } from "./numbers.js";
import { BETWEEN, type Between, eachRecord } from "./split.js";

/** A row of a CSV file, and the line on which it stands. Its numbers have points before their decimals. */
export interface Row {
  line: number;
  cells: string[];
  /** What stands between the cells of its file. */
  between: Between;
}

/** Tells a problem of a line. */
export type Tell = (line: number, message: string) => void;

/** Columns that hold words. */
const WORDS: ReadonlySet<string> = new Set(["place", "reading", "note"]);

/** No file here has nearly as many. */
const MOST_COLUMNS = 100;

/** Is every number of the column so named far below a thousand? */
export type IsSmall = (name: string) => boolean;

/** The rows, as `eachRow` visits them; nothing, and told, where the quotes do not match. */
export function splitRows(text: string, tell: Tell, isSmall?: IsSmall): Row[] | undefined {
  const rows: Row[] = [];
  return eachRow(text, tell, (row) => void rows.push(row), isSmall) ? rows : undefined;
}

/**
 * Visits one row after the other, the header first; comment lines (which begin with #), blank rows and blank cells at the
 * end of a row are left out. A row with a number that can be read in two ways is told and not visited.
 * @param isSmall where no number is in the thousands, `1,512` shows what begins the decimals
 * @returns false, and told, where there are no rows to be read: the quotes do not match, or it is no table
 */
export function eachRow(text: string, tell: Tell, visit: (row: Row) => void, isSmall: IsSmall = () => false): boolean {
  const between = betweenIn(text);
  const shown: Shown | undefined = between === "," ? { mark: ".", line: 0 } : shownIn(text, between, isSmall);
  let header: Row | undefined;
  let headed = 0;
  let fit = true;
  const nameless = new Set<number>();
  const torn = eachRecord(text, between, (line, record) => {
    const filled = record.findLastIndex((cell) => cell !== "") + 1;
    if (filled === 0) return;
    if (!header && filled > MOST_COLUMNS) {
      tell(line, `more than ${MOST_COLUMNS} columns, as no file here has; is each row on a line of its own?`);
      fit = false;
      return true;
    }
    if (!header) {
      header = { line, cells: record.slice(0, filled), between };
      headed = record.length;
      visit(header);
      return;
    }
    const columns = header.cells.length;
    let width = Math.max(filled, Math.min(record.length, columns));
    if (width > columns && width <= headed) {
      if (!nameless.has(width)) tell(header.line, `column ${width} has no name in the header`);
      nameless.add(width);
      width = columns;
    }
    const cells = record.length === width ? record : record.slice(0, width);
    if (pointed(cells, header.cells, shown, (message) => tell(line, message))) visit({ line, cells, between });
  });
  if (torn !== undefined) tell(torn, "the quotation marks of this row do not match");
  return fit && torn === undefined;
}

/** Puts points into a row's numbers. @returns false, and told, where one of them can be read in two ways */
function pointed(cells: string[], names: readonly string[], shown: Shown | undefined, tell: (message: string) => void) {
  let clear = true;
  for (const [i, cell] of cells.entries()) {
    const name = names[i] ?? "";
    if (WORDS.has(name) || !(cell.includes(",") || (shown?.mark !== "." && cell.includes(".")))) continue;
    cells[i] = withPoints(cell, shown, (message) => {
      clear = false;
      tell(`${name}: ${message}`);
    });
  }
  return clear;
}

/** What stands between the cells of the header, by what stands there most often. */
function betweenIn(text: string): Between {
  const [, named] = HINT.exec(text) ?? [];
  if (named) return named as Between;
  const header = /^(?![ \t]*(?:#|$)).*/m.exec(text)?.[0] ?? "";
  const count = (mark: string) => header.split(mark).length;
  const marks = Object.keys(BETWEEN) as Between[];
  return marks.reduce((most, mark) => (count(mark) > count(most) ? mark : most));
}

/** The first line that some spreadsheets write for each other: `sep=;`. */
const HINT = /^sep=([,;\t])[ \t]*(?:\n|$)/i;

/** The first number that shows what begins the decimals. */
function shownIn(text: string, between: Between, isSmall: IsSmall): Shown | undefined {
  let names: readonly string[] | undefined;
  let shown: Shown | undefined;
  eachRecord(text, between, (line, cells) => {
    names ??= cells;
    const marks = cells.map((cell, i) => {
      const name = names?.[i] ?? "";
      return WORDS.has(name) ? undefined : (markIn(cell) ?? (isSmall(name) ? smallMarkIn(cell) : undefined));
    });
    const mark = marks.find((each) => each !== undefined);
    if (mark && cells !== names) shown = { mark, line };
    return shown !== undefined;
  });
  return shown;
}

/** Does the header look as if something else stood between its cells than is read? Then that is told. */
export function isUnparted({ line, cells }: Row, tell: Tell): boolean {
  const unparted = cells.length === 1 && /[|\s]/.test(cells[0] ?? "");
  if (unparted) tell(line, "the columns are not parted; put commas, semicolons or tabs between the cells");
  return unparted;
}

/** What is said of a header's cell that names no column. */
export function unknownColumn(name: string, index: number, columns: readonly string[]): string {
  if (name === "") return `column ${index + 1} has no name in the header`;
  const near = nearest(name, columns);
  return `${name.slice(0, 60)} is not a column${near ? `; did you mean ${near}?` : `; there are ${columns.join(", ")}`}`;
}

/** Tells every row that has more or fewer cells than the header. */
export function checkWidths(rows: readonly Row[], columns: number, tell: Tell): void {
  for (const row of rows) checkWidth(row, columns, tell);
}

/** Tells a row that has more or fewer cells than the header. */
export function checkWidth({ line, cells, between }: Row, columns: number, tell: Tell): void {
  if (cells.length === columns) return;
  const mark = BETWEEN[between];
  tell(line, `this row has ${cells.length} cells under ${columns} columns; a ${mark} too many or too few?`);
}

const NUMBER = /^[-+\u2212]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i;

/** The number that a cell holds; a wrong one goes to `refuse`, and NaN stands in for it. */
export function numberOf(text: string, refuse: (message: string) => void): number {
  const value = NUMBER.test(text) ? Number(text.replace("\u2212", "-")) : Number.NaN;
  if (Number.isFinite(value)) return value;
  if (text === "") refuse("the cell is blank; a number is wanted");
  else if (/^[-+\u2212]?\d+,\d+$/.test(text)) {
    refuse(`${quotedCell(text)} has a comma in it; write it with a point, or without`);
  } else if (Number.isNaN(value)) refuse(`${quotedCell(text)} is not a number; the unit stands in the header alone`);
  else refuse(`${quotedCell(text)} is too large a number`);
  return Number.NaN;
}

/** A cell as errors show it. */
export const quotedCell = quoted;
