/** How a table is laid out. */
export interface Layout {
  /** Columns of the terminal. */
  width: number;
  head?: readonly string[];
  /** Columns whose figures stand under each other's ends, by number from 0. */
  right?: readonly number[];
}

const GAP = "  ";
/** A last column narrower than this is not worth wrapping into. */
const NARROWEST = 16;

/** Rows in columns as wide as their widest cell; the last column is wrapped where the terminal ends. */
export function table(rows: readonly (readonly string[])[], { width, head, right = [] }: Layout): string[] {
  const all = head ? [head, ...rows] : rows;
  const last = Math.max(0, ...all.map((row) => row.length)) - 1;
  const widths = Array.from({ length: last }, (_, i) => Math.max(...all.map((row) => (row[i] ?? "").length)));
  const before = widths.reduce((sum, each) => sum + each + GAP.length, 0);
  const room = Math.max(NARROWEST, width - before);
  const widest = Math.max(0, ...all.map((row) => (row[last] ?? "").length));
  return all.flatMap((row) => {
    const cells = widths.map((wide, i) =>
      right.includes(i) ? (row[i] ?? "").padStart(wide) : (row[i] ?? "").padEnd(wide),
    );
    if (right.includes(last)) return [[...cells, (row[last] ?? "").padStart(widest)].join(GAP).trimEnd()];
    const [first = "", ...more] = wrap(row[last] ?? "", room);
    return [[...cells, first].join(GAP).trimEnd(), ...more.map((line) => " ".repeat(before) + line)];
  });
}

/** Text broken between words; a word longer than the line is left whole. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const line = lines.at(-1);
    if (line !== undefined && line.length + 1 + word.length <= width) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Lines under a heading, set apart by a blank line. */
export const section = (heading: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ["", heading, ...lines.map((line) => (line === "" ? "" : `  ${line}`))];
