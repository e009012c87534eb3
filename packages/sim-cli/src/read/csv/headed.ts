import { type Diagnostic, tellFirst } from "../diagnostics.js";
import { checkWidths, isUnparted, type Row, splitRows, type Tell, unknownColumn } from "./csv.js";

/** A sheet with a header of known columns. */
export interface Headed<C> {
  header: Row;
  rows: Row[];
  /** Of each cell of the header. */
  columns: (C | undefined)[];
  tell: Tell;
}

/**
 * Splits a sheet and finds its columns by their names.
 * @param like a right header, for a file that is empty
 * @returns nothing, and told, where there is no header to be read; what is wrong with it besides is in `problems`
 */
export function headed<C>(
  file: string,
  text: string,
  known: ReadonlyMap<string, C>,
  like: string,
  problems: Diagnostic[],
): Headed<C> | undefined {
  const tell: Tell = tellFirst(file, problems);
  const [header, ...rows] = splitRows(text, tell) ?? [];
  if (!header) {
    if (problems.length === 0) tell(1, `the file is empty; it begins with a header such as ${like}`);
    return undefined;
  }
  if (isUnparted(header, tell)) return undefined;
  const columns = header.cells.map((name, i) => {
    const column = known.get(name);
    if (!column) tell(header.line, unknownColumn(name, i, [...known.keys()]));
    return column;
  });
  checkWidths(rows, header.cells.length, tell);
  return { header, rows, columns, tell };
}
