import { parse } from "csv-parse/sync";
import { addProblem, type Diagnostic } from "./diagnostics.js";

/** A file of cases: a row each, its columns the keys that are set. */
export interface Cases {
  columns: string[];
  rows: string[][];
}

/** What spreadsheets put between cells: keys have neither semicolons nor tabs in them. */
function betweenIn(text: string): string {
  const head = /^(?![ \t]*(?:#|$)).*/m.exec(text)?.[0] ?? "";
  return [";", "\t"].find((mark) => head.includes(mark)) ?? ",";
}

/** @returns nothing, and told, where it will not do */
export function readCases(file: string, text: string, problems: Diagnostic[]): Cases | undefined {
  const say = (line: number, message: string) => addProblem(problems, { file, line, message });
  let records: { record: string[]; info: { lines: number } }[];
  try {
    records = parse(text, {
      bom: true,
      comment: "#",
      comment_no_infix: true,
      delimiter: betweenIn(text),
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
  return problems.length > before ? undefined : { columns: head.record, rows: rows.map(({ record }) => record) };
}
