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

/**
 * Rows in columns as wide as their widest cell; the last column is wrapped where the terminal ends. Where even that does
 * not fit, each row is a line of text.
 */
export function table(rows: readonly (readonly string[])[], { width, head, right = [] }: Layout): string[] {
  const all = head ? [head, ...rows] : rows;
  const last = Math.max(0, ...all.map((row) => row.length)) - 1;
  const widths = Array.from({ length: last + 1 }, (_, i) => Math.max(...all.map((row) => (row[i] ?? "").length)));
  const before = widths.slice(0, last).reduce((sum, each) => sum + each + GAP.length, 0);
  const asked = right.includes(last) ? (widths[last] ?? 0) : Math.min(NARROWEST, widths[last] ?? 0);
  if (before + asked > width) return all.flatMap((row) => hanging(row.filter((cell) => cell !== "").join(", "), width));
  return all.flatMap((row) => {
    const cells = widths.map((wide, i) =>
      right.includes(i) ? (row[i] ?? "").padStart(wide) : (row[i] ?? "").padEnd(wide),
    );
    const [first = "", ...more] = right.includes(last) ? cells.slice(last) : wrap(row[last] ?? "", width - before);
    return [[...cells.slice(0, last), first].join(GAP).trimEnd(), ...more.map((line) => " ".repeat(before) + line)];
  });
}

/** Do rows stand in columns, with none of their cells broken? */
export function fits(rows: readonly (readonly string[])[], width: number): boolean {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, i) => Math.max(...rows.map((row) => (row[i] ?? "").length)));
  return widths.reduce((sum, each) => sum + each + GAP.length, -GAP.length) <= width;
}

/** Wrapped, the lines after the first set in. */
function hanging(text: string, width: number): string[] {
  const [first = "", ...more] = wrap(text, width);
  return [first, ...wrap(more.join(" "), width - GAP.length).map((line) => GAP + line)].filter(
    (line) => line.trim() !== "",
  );
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
