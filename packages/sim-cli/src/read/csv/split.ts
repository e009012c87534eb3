import { CsvError, parse } from "csv-parse/sync";

/** What may stand between cells: spreadsheets save semicolons or tabs where a comma begins the decimals. */
export const BETWEEN = { ",": "comma", ";": "semicolon", "\t": "tab" } as const;
export type Between = keyof typeof BETWEEN;

/** What some spreadsheets tell each other in the first line: `sep=;`. */
const HINT = /^sep=/i;

/** Ends the reading before the end of the text. */
class Enough extends Error {}

/**
 * Splits a CSV text into its records, without blank lines and comment lines, which begin with #. Cells lose the blanks around
 * them.
 * @param visit is given each record with the line it begins on, and may end the reading by returning true
 * @returns the line of a record whose quotation marks do not match; nothing is read beyond it
 */
export function eachRecord(
  text: string,
  between: Between,
  visit: (line: number, cells: string[]) => boolean | undefined,
): number | undefined {
  if (!text.includes('"') && !text.includes("\r")) return eachLine(text, between, visit);
  let read = 0;
  try {
    parse(text, {
      delimiter: between,
      trim: true,
      comment: "#",
      comment_no_infix: true,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      // Records are visited as they come and not kept: a file may have a million.
      on_record: (cells: string[], { lines }) => {
        read = lines;
        const first =
          lines - cells.reduce((sum, cell) => sum + (cell.includes("\n") ? cell.split("\n").length - 1 : 0), 0);
        if (!(first === 1 && HINT.test(cells[0] ?? "")) && visit(first, cells)) throw new Enough();
        return null;
      },
    });
  } catch (error) {
    if (error instanceof CsvError) return beginsAfter(text, read);
    if (!(error instanceof Enough)) throw error;
  }
  return undefined;
}

/** The same of a text without quotation marks, in a quarter of the time: a record is a line. */
function eachLine(
  text: string,
  between: Between,
  visit: (line: number, cells: string[]) => boolean | undefined,
): undefined {
  let line = 0;
  for (let from = 0; from < text.length; ) {
    const end = text.indexOf("\n", from);
    const to = end < 0 ? text.length : end;
    line++;
    const record = text.slice(from, to);
    from = to + 1;
    if (/^\s*(?:#|$)/.test(record)) continue;
    const cells = record.split(between);
    for (let i = 0; i < cells.length; i++) cells[i] = cells[i]!.trim();
    if (!(line === 1 && HINT.test(cells[0] ?? "")) && visit(line, cells)) return;
  }
}

/** The line of the next record after one that ends on line `read`. */
function beginsAfter(text: string, read: number): number {
  const lines = text.split("\n");
  const at = lines.findIndex((line, i) => i >= read && !/^\s*(?:#|$)/.test(line));
  return at < 0 ? read + 1 : at + 1;
}
