import { parse } from "csv-parse/sync";
import { markIn, type Shown, withPoints } from "./csv/numbers.js";
import { addProblem, type Diagnostic } from "./diagnostics.js";
import { isFigure, keyNamed } from "./keys/named.js";

/** A file of cases: a row each, its columns the keys that are set. */
export interface Cases {
  columns: string[];
  rows: string[][];
}

/** The first line that some spreadsheets write for each other: `sep=;`. */
const HINT = /^\ufeff?sep=([,;\t])[ \t]*\r?\n/i;

/** What spreadsheets put between cells: keys have neither semicolons nor tabs in them. */
function betweenIn(text: string): string {
  const [, named] = HINT.exec(text) ?? [];
  if (named !== undefined) return named;
  const head = /^(?![ \t]*(?:#|$)).*/m.exec(text)?.[0] ?? "";
  return [";", "\t"].find((mark) => head.includes(mark)) ?? ",";
}

/** @returns nothing, and told, where it will not do */
export function readCases(file: string, text: string, problems: Diagnostic[]): Cases | undefined {
  const say = (line: number, message: string) => addProblem(problems, { file, line, message });
  const between = betweenIn(text);
  let records: Line[];
  try {
    records = parse(text, {
      bom: true,
      comment: "#",
      comment_no_infix: true,
      delimiter: between,
      from_line: HINT.test(text) ? 2 : 1,
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
    }) as unknown as typeof records;
  } catch (error) {
    say(
      (error as { lines?: number }).lines ?? 1,
      "this is no CSV: its quotation marks do not match, or stand within a cell",
    );
    return undefined;
  }
  const [head, ...rows] = records;
  if (!head || rows.length === 0) {
    say(head?.info.lines ?? 1, "a row of keys and a row for each case are wanted, such as passengers,loco.mass");
    return undefined;
  }
  const before = problems.length;
  for (const [i, name] of head.record.entries()) {
    if (name === "")
      say(head.info.lines, `column ${i + 1} has no name: a key is wanted, such as passengers or loco.mass`);
    else if (head.record.indexOf(name) < i) say(head.info.lines, `${name} heads two columns`);
  }
  for (const { record, info } of rows) {
    if (record.some((cell) => /[\r\n]/.test(cell))) say(info.lines, "a cell goes on over lines; a case stands on one");
    if (record.length !== head.record.length)
      say(
        info.lines,
        `this row has ${record.length} cells under ${head.record.length} columns; a value with commas in it stands in quotation marks`,
      );
  }
  pointed(head.record, rows, between, say);
  return problems.length > before ? undefined : { columns: head.record, rows: rows.map(({ record }) => record) };
}

interface Line {
  record: string[];
  info: { lines: number };
}

/** Puts points before the decimals of what is one figure, as in every CSV; lists and names keep their commas. */
function pointed(
  columns: readonly string[],
  rows: readonly Line[],
  between: string,
  say: (line: number, message: string) => void,
): void {
  const numbered = columns.map((column) => isFigure(keyNamed(column)));
  const isNumber = (cell: string, i: number) => numbered[i] === true && /[.,]/.test(cell) && !/[[{]/.test(cell);
  const shown: Shown | undefined = between === "," ? { mark: ".", line: 0 } : shownIn(rows, isNumber);
  for (const { record, info } of rows)
    for (const [i, cell] of record.entries())
      if (isNumber(cell, i))
        record[i] = withPoints(cell, shown, (message) => say(info.lines, `${columns[i]}: ${message}`));
}

/** The first figure that shows what begins the decimals. */
function shownIn(rows: readonly Line[], isNumber: (cell: string, i: number) => boolean): Shown | undefined {
  for (const { record, info } of rows)
    for (const [i, cell] of record.entries()) {
      const mark = isNumber(cell, i) ? markIn(cell) : undefined;
      if (mark) return { mark, line: info.lines };
    }
  return undefined;
}
