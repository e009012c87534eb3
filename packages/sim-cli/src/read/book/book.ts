import type { BookRow, SlopeRow } from "@rideon/sim-core";
import { checkWidths, numberOf, type Row, splitRows, type Tell } from "../csv/csv.js";
import { type Diagnostic, tellFirst } from "../diagnostics.js";
import { wrongText } from "../yaml/values.js";
import { BOOK_COLUMNS, type BookMeasure, isReading } from "./columns.js";
import { measuresOf } from "./header.js";

/** A survey as read: a levelling book, which a water tube fills too, or slopes; and the line of each of its rows. */
export type Book = { lines: number[] } & (
  | { kind: "book"; rows: BookRow[]; tube: boolean }
  | { kind: "slopes"; rows: SlopeRow[] }
);

type Cells = Partial<Record<Exclude<BookMeasure, "place">, number | null>> & {
  place: string;
  line: number;
  /** A slope as it was read, with its unit. */
  written?: string;
};

/**
 * Reads a survey's book: comment lines begin with #, a header names the columns and their units, a row for each place.
 * @returns it in SI units, or nothing where `problems` says why
 */
export function readBook(file: string, text: string, problems: Diagnostic[]): Book | undefined {
  const tell = tellFirst(file, problems);
  const [header, ...rows] = splitRows(text, tell, isReading) ?? [];
  if (!header) {
    if (problems.length === 0)
      tell(1, "the file is empty; it begins with a header such as distance_m,backsight_m,foresight_m");
    return undefined;
  }
  const measures = measuresOf(header, tell);
  if (!measures) return undefined;
  checkWidths(rows, header.cells.length, tell);
  if (rows.length === 0 && problems.length === 0)
    tell(header.line, "no place follows the header; two or more are wanted");
  const cells = rows.map((row) => cellsOf(row, header, measures, tell));
  const has = (measure: BookMeasure) => measures.includes(measure);
  const lines = cells.map(({ line }) => line);
  const book: Book = has("slope")
    ? { kind: "slopes", rows: slopesOf(cells, tell), lines }
    : {
        kind: "book",
        rows: has("tube_back") ? tubeOf(cells, tell) : cells.map(bookRow),
        tube: has("tube_back"),
        lines,
      };
  return problems.length > 0 ? undefined : book;
}

function cellsOf(row: Row, header: Row, measures: readonly (BookMeasure | undefined)[], tell: Tell): Cells {
  const found: Cells = { place: "", line: row.line };
  for (const [i, measure] of measures.entries()) {
    const cell = row.cells[i] ?? "";
    if (measure === undefined) continue;
    if (measure === "place") {
      const wrong = cell === "" ? undefined : wrongText(cell);
      if (wrong) tell(row.line, `place: ${wrong}`);
      found.place = cell;
    } else if (cell === "") found[measure] = null;
    else {
      const name = header.cells[i] ?? "";
      const value = numberOf(cell, (message) => tell(row.line, `${name}: ${message}`));
      found[measure] = BOOK_COLUMNS.get(name)?.toSI(value) ?? Number.NaN;
      if (measure === "slope") found.written = `${cell}${name.endsWith("_percent") ? " %" : " degrees"}`;
    }
  }
  return found;
}

const bookRow = (cells: Cells): BookRow => ({
  distance_m: cells.distance ?? null,
  backsight_m: cells.backsight ?? null,
  intermediate_m: cells.intermediate ?? null,
  foresight_m: cells.foresight ?? null,
  known_level_m: cells.known_level ?? null,
  place: cells.place,
});

/**
 * A water tube from each place to the next: how far above the rail its water stands at the place before, and here. That is
 * a set-up of its own, with a backsight there and a foresight here.
 */
function tubeOf(cells: readonly Cells[], tell: Tell): BookRow[] {
  return cells.map((row, i) => {
    const next = cells[i + 1];
    if (i > 0 && (row.tube_back == null || row.tube_ahead == null))
      tell(row.line, "a water tube is read at both its ends: tube_back at the place before, tube_ahead here");
    if (i === 0 && (row.tube_back != null || row.tube_ahead != null))
      tell(row.line, "the first place has no reading: the tube reaches back to nothing");
    return {
      ...bookRow(row),
      backsight_m: next?.tube_back ?? null,
      foresight_m: i === 0 ? null : (row.tube_ahead ?? null),
    };
  });
}

function slopesOf(cells: readonly Cells[], tell: Tell): SlopeRow[] {
  return cells.map((row, i) => {
    if (row.distance == null) tell(row.line, "the distance is blank; a number is wanted");
    if (row.slope == null && i < cells.length - 1) tell(row.line, "the slope is blank; level is 0");
    return {
      distance_m: row.distance ?? Number.NaN,
      slope: row.slope ?? 0,
      known_level_m: row.known_level ?? null,
      place: row.place,
      ...(row.written !== undefined && { written: row.written }),
    };
  });
}
