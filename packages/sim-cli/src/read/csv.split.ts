/** What may stand between cells: spreadsheets save semicolons or tabs where a comma begins the decimals. */
export const BETWEEN = { ",": "comma", ";": "semicolon", "\t": "tab" } as const;
export type Between = keyof typeof BETWEEN;

/** To the end of a cell that has no quotation marks around it. */
const REST = { ",": /[^,\n]*/y, ";": /[^;\n]*/y, "\t": /[^\t\n]*/y } as const;

/** No record has more cells that anyone reads: of a file without line ends, the rest is left. */
const MOST_CELLS = 1000;

/** No record: a blank line, a comment, or what some spreadsheets tell each other in the first line, `sep=;`. */
const NO_RECORD = /^\s*(?:#|$)|^sep=.\s*$/i;

/**
 * Splits a CSV text (RFC 4180, every line ended by \n) into its records, without blank lines and comment lines, which begin
 * with #. Cells lose the blanks around them. A cell in quotation marks may hold anything, a quotation mark
 * written twice; a cell that only has some in it keeps them.
 * @param visit is given each record with the line it begins on, and may end the reading by returning true
 * @returns the line of a record whose quotation marks do not match; nothing is read beyond it
 */
export function eachRecord(
  text: string,
  between: Between,
  visit: (line: number, cells: string[]) => boolean | undefined,
): number | undefined {
  for (let at = 0, line = 1; at < text.length; line++) {
    const end = endOf(text, "\n", at);
    const whole = text.slice(at, end);
    const first = line;
    at = end + 1;
    if (NO_RECORD.test(whole)) continue;
    let cells = whole.includes('"') ? [] : whole.split(between, MOST_CELLS);
    if (cells.length === 0) {
      const record = quotedRecord(text, between, end - whole.length);
      if (!record) return first;
      cells = record.cells;
      for (; at <= record.end; line++) at = endOf(text, "\n", at) + 1;
    }
    for (const [i, cell] of cells.entries()) cells[i] = cell.trim();
    if (visit(first, cells)) return undefined;
  }
  return undefined;
}

function endOf(text: string, mark: string, from: number): number {
  const found = text.indexOf(mark, from);
  return found < 0 ? text.length : found;
}

/** A record with quotation marks in it, and where it ends; nothing where they do not match. */
function quotedRecord(text: string, between: Between, from: number): { cells: string[]; end: number } | undefined {
  const cells: string[] = [];
  for (let at = from; ; at++) {
    const opening = pass(text, at, /[ ]*/y);
    let end = pass(text, at, REST[between]);
    let cell = text.slice(at, end);
    if (text[opening] === '"') {
      const closing = closingQuote(text, opening);
      if (closing === undefined) return undefined;
      const after = pass(text, closing + 1, /[ ]*/y);
      // `"Home" yard` is no cell in quotation marks.
      if (after === text.length || text[after] === "\n" || text[after] === between) {
        cell = text.slice(opening + 1, closing).replaceAll('""', '"');
        end = after;
      }
    }
    if (cells.length < MOST_CELLS) cells.push(cell);
    if (text[end] !== between) return { cells, end };
    at = end;
  }
}

/** Where a pattern, which may be found empty, ends. */
function pass(text: string, from: number, pattern: RegExp): number {
  pattern.lastIndex = from;
  pattern.test(text);
  return pattern.lastIndex;
}

function closingQuote(text: string, opening: number): number | undefined {
  for (let at = opening + 1; ; at += 2) {
    at = text.indexOf('"', at);
    if (at < 0) return undefined;
    if (text[at + 1] !== '"') return at;
  }
}
