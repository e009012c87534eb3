import { Socket } from "node:net";
import { isatty, ReadStream } from "node:tty";

/** What has come of the input that is waited for, by the path that names it. */
export type Arrived = Map<string, Uint8Array>;

/** Input that has yet to come: thrown by a reader that is not to wait for it itself. */
export class YetToCome extends Error {
  readonly path: string;
  /** Open, and never waits where there is nothing yet. */
  readonly file: number;
  /** More than this is not asked for. */
  readonly limit_bytes: number;
  constructor(path: string, file: number, limit_bytes: number) {
    super(`${path} has yet to come`);
    this.path = path;
    this.file = file;
    this.limit_bytes = limit_bytes;
  }
}

/**
 * Reads with a reader that cannot wait. Each time it meets input that has yet to come, from standard input or a pipe with
 * a name, that is waited for, and the reader begins anew: meanwhile an interrupt is heard.
 */
export async function patiently<T>(read: (arrived: Arrived) => T): Promise<T> {
  const arrived: Arrived = new Map();
  for (;;) {
    try {
      return read(arrived);
    } catch (error) {
      if (!(error instanceof YetToCome)) throw error;
      arrived.set(error.path, await contentsOf(error));
    }
  }
}

/** All of it, or a little more than the limit. */
async function contentsOf({ file, limit_bytes }: YetToCome): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of streamOf(file)) {
    pieces.push(piece as Uint8Array);
    length += (piece as Uint8Array).length;
    if (length > limit_bytes) break;
  }
  return Buffer.concat(pieces, length);
}

function streamOf(file: number) {
  if (file === 0) return process.stdin;
  return isatty(file) ? new ReadStream(file) : new Socket({ fd: file, readable: true, writable: false });
}
