import { CsvError, parse } from "csv-parse/sync";
import { nearest } from "./nearest.js";

/** A row of a CSV file, and the line on which it stands. */
export interface Row {
  line: number;
  cells: string[];
}

/** Tells a problem of a line. */
export type Tell = (line: number, message: string) => void;

/** The rows, without comment lines (which begin with #); nothing, and told, where the quotes do not match. */
export function splitRows(text: string, tell: Tell): Row[] | undefined {
  try {
    const rows = parse(text, {
      info: true,
      trim: true,
      comment: "#",
      comment_no_infix: true,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
    }) as unknown as { info: { lines: number }; record: string[] }[];
    return rows.map(({ info, record }) => ({ line: info.lines, cells: record }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    tell(Number(error["lines"]) || 1, "the quotation marks of this row do not match");
    return undefined;
  }
}

/** Does the header look as if something else than commas stood between its cells? Then that is told. */
export function isUnparted({ line, cells }: Row, tell: Tell): boolean {
  const unparted = cells.length === 1 && /[;\t]/.test(cells[0] ?? "");
  if (unparted) tell(line, "the columns are not parted by commas; save the file with a comma between cells");
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
  for (const { line, cells } of rows) {
    if (cells.length === columns) continue;
    tell(line, `this row has ${cells.length} cells under ${columns} columns; a comma too many or too few?`);
  }
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
export const quotedCell = (text: string): string => `"${text.slice(0, 60)}"`;
