import { closeSync, constants, fstatSync, openSync, readSync } from "node:fs";
import { isatty } from "node:tty";
import { type Arrived, YetToCome } from "./awaited.js";

/** A file that cannot be read as text; the message says why, without the file's name. */
export class TextError extends Error {
  readonly line: number | undefined;
  constructor(message: string, line?: number) {
    super(message);
    this.line = line;
  }
}

export const NO_SUCH_FILE = "there is no such file";

const CHUNK_bytes = 65_536;

/**
 * The text of a file, or of standard input for "-": UTF-8, a byte order mark taken off, every line ended by \\n.
 * @param arrived what has come of input that is waited for; where absent, it is waited for here
 * @throws TextError where it is missing, no text or longer than `limit_bytes`; YetToCome where it has to be waited for
 */
export function readText(path: string, limit_bytes: number, arrived?: Arrived): string {
  const bytes = arrived?.get(path) ?? readBytes(path, limit_bytes, arrived !== undefined);
  if (bytes.length > limit_bytes)
    throw new TextError(`it is larger than ${limit_bytes / 1024} KB, too large for a file of this kind`);
  if (bytes.length >= 2 && ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))) {
    throw new TextError("it is written in UTF-16; save it as UTF-8");
  }
  if (bytes.includes(0)) throw new TextError("it is not a text file");
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes).replaceAll(/\r\n?/g, "\n");
  } catch {
    throw new TextError("this line has a character that is not UTF-8; save the file as UTF-8", firstBadLine(bytes));
  }
}

/** Read in pieces, so that a device or an endless pipe stops at the limit too. */
function readBytes(path: string, limit_bytes: number, mayAwait: boolean): Uint8Array {
  const file = path === "-" ? 0 : open(path, mayAwait);
  let left = path === "-";
  try {
    const kind = fstatSync(file);
    if (kind.isDirectory()) throw new TextError("it is a folder, not a file");
    if (mayAwait && (kind.isFIFO() || kind.isSocket() || isatty(file))) {
      left = true;
      throw new YetToCome(path, file, limit_bytes);
    }
    const pieces: Uint8Array[] = [];
    let length = 0;
    for (let read = -1; read !== 0 && length <= limit_bytes; length += read) {
      const piece = new Uint8Array(CHUNK_bytes);
      read = readPiece(file, piece);
      pieces.push(piece.subarray(0, read));
    }
    return Buffer.concat(pieces, length);
  } finally {
    if (!left) closeSync(file);
  }
}

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException).code ?? "";

/** A pipe that nobody writes into yet would keep us waiting here, were it not told to be opened at once. */
function open(path: string, atOnce: boolean): number {
  try {
    return openSync(path, constants.O_RDONLY | (atOnce ? (constants.O_NONBLOCK ?? 0) : 0));
  } catch (error) {
    const code = codeOf(error);
    if (code === "ENOENT" || code === "ENOTDIR") throw new TextError(NO_SUCH_FILE);
    if (code === "EACCES" || code === "EPERM") throw new TextError("it may not be read by you");
    if (code === "EISDIR") throw new TextError("it is a folder, not a file");
    throw new TextError(`it cannot be opened (${code || "unknown reason"})`);
  }
}

function readPiece(file: number, piece: Uint8Array): number {
  for (;;) {
    try {
      return readSync(file, piece, 0, piece.length, null);
    } catch (error) {
      const code = codeOf(error);
      if (code === "EOF") return 0;
      if (code !== "EAGAIN") throw new TextError(`it cannot be read (${code || "unknown reason"})`);
      // Standard input that has nothing yet: look again a little later.
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
  }
}

function firstBadLine(bytes: Uint8Array): number {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let line = 1;
  for (let start = 0; start < bytes.length; line++) {
    const end = bytes.indexOf(0x0a, start);
    const stop = end < 0 ? bytes.length : end;
    try {
      decoder.decode(bytes.subarray(start, stop));
    } catch {
      return line;
    }
    start = stop + 1;
  }
  return line;
}
