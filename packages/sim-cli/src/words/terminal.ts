import { fstatSync } from "node:fs";
import { styleText } from "node:util";
import { cut } from "@rideon/sim-core";
import { attempt, writeAll } from "../files/disk.js";
import { plain } from "../ground/plain.js";

/** Where the answer is read: how wide, and whether it takes colour. */
export interface Terminal {
  columns: number;
  colour: boolean;
}

const NARROWEST = 40;
const WIDEST = 100;
const WITHOUT_TERMINAL = 80;

/** Colour only on a terminal, and never under NO_COLOR. */
export const terminal = (stream: NodeJS.WriteStream = process.stdout): Terminal => ({
  columns: Math.min(WIDEST, Math.max(NARROWEST, stream.columns || WITHOUT_TERMINAL)),
  colour: stream.isTTY === true && !process.env["NO_COLOR"] && process.env["TERM"] !== "dumb",
});

export type Colour = "bold" | "dim" | "cyan" | "yellow" | "green";

export const painted = (text: string, colour: Colour, { colour: may }: Terminal): string =>
  may ? styleText(colour, text, { validateStream: false }) : text;

/**
 * Writes to standard output. Node takes what a disk that fills up has taken of a text for all of it, so that to a file the
 * text goes piece by piece. @throws DiskError
 */
export function writeOut(text: string): void {
  const { fd, isTTY } = process.stdout;
  const kind = fstatSync(fd);
  if (isTTY || !(kind.isFile() || kind.isCharacterDevice())) process.stdout.write(text);
  else attempt("the output", () => writeAll(fd, text));
}

/** The words of an answer: nothing in them is obeyed by a terminal but our own colours. */
export const print = (lines: readonly string[]): void => {
  const { colour } = terminal();
  const shown = lines.join("\n").split("\n");
  writeOut(`${shown.map((line) => (colour ? plainButColour(line) : plain(line))).join("\n")}\n`);
};

const ESCAPE = "\u001b[";

const plainButColour = (line: string): string =>
  line
    .split(ESCAPE)
    .map((part, i) => `${i === 0 ? "" : /^\d+m/.test(part) ? ESCAPE : plain(ESCAPE)}${plain(part)}`)
    .join("");

/** Longer lines than any of ours repeat something that nobody wants to see again. */
const LONGEST_LINE = 1000;

/** Warnings, notes and errors go to the other stream, so that answers can be piped. */
export const tell = (lines: readonly string[]): void => {
  const all = lines.join("\n").split("\n");
  if (lines.length > 0) process.stderr.write(`${all.map((line) => cut(plain(line), LONGEST_LINE)).join("\n")}\n`);
};

/** Text of a file, such as a name, with nothing in it that a terminal would obey. */
export { plain };
