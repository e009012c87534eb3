import { styleText } from "node:util";
import { plain } from "../plain.js";

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

export const print = (lines: readonly string[]): void => {
  process.stdout.write(`${lines.join("\n")}\n`);
};

/** Warnings, notes and errors go to the other stream, so that answers can be piped. */
export const tell = (lines: readonly string[]): void => {
  if (lines.length > 0) process.stderr.write(`${lines.join("\n").split("\n").map(plain).join("\n")}\n`);
};

/** Text of a file, such as a name, with nothing in it that a terminal would obey. */
export { plain };
