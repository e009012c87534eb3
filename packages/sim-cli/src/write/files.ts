import { closeSync, mkdirSync, openSync, renameSync, rmSync, statSync, writeSync } from "node:fs";
import { dirname, join } from "node:path";

/** The disk would not: full, not writable, something else in the way. Exit status 3. */
export class DiskError extends Error {
  override readonly name = "DiskError";
}

/** Files of an answer: until all are written none has its name, and each appears whole or not at all. */
export interface WholeFiles {
  /** Opens a file to be written; its name appears with `finish`. */
  open(name: string): number;
  write(name: string, text: string): void;
  /** Closes all and gives them their names, in place of older files of these names; tells where they stand. */
  finish(): string[];
  /** Leaves nothing behind but what was there before. */
  discard(): void;
}

/** What an interrupted command must clear away. */
const unfinished = new Set<WholeFiles>();

export const discardUnfinished = (): void => {
  for (const files of unfinished) files.discard();
};

/** Makes the folder, so that a wrong one is told before anything runs. @throws DiskError */
export function wholeFiles(folder: string): WholeFiles {
  makeFolder(folder);
  const open = new Map<string, { path: string; temporary: string; file: number }>();
  const files: WholeFiles = {
    open(name) {
      const path = join(folder, name);
      const temporary = join(folder, `.${name}.${process.pid}.tmp`);
      const file = attempt(path, () => openSync(temporary, "w"));
      open.set(name, { path, temporary, file });
      return file;
    },
    write(name, text) {
      const file = files.open(name);
      attempt(join(folder, name), () => writeAll(file, text));
    },
    finish() {
      for (const { path, file } of open.values()) attempt(path, () => closeSync(file));
      for (const { path, temporary } of open.values()) attempt(path, () => renameSync(temporary, path));
      const paths = [...open.values()].map(({ path }) => path);
      open.clear();
      unfinished.delete(files);
      return paths;
    },
    discard() {
      for (const { temporary } of open.values()) rmSync(temporary, { force: true });
      open.clear();
      unfinished.delete(files);
    },
  };
  unfinished.add(files);
  return files;
}

/**
 * Makes a folder and those above it that are wanting. One at a time: Node's own way of making all of them never comes back
 * from where the system lets none be made, as under /proc.
 * @throws DiskError
 */
export function makeFolder(folder: string): void {
  if (attempt(folder, () => statSync(folder, { throwIfNoEntry: false })?.isDirectory())) return;
  const above = dirname(folder);
  if (above !== folder) makeFolder(above);
  attempt(folder, () => mkdirSync(folder));
}

/** All of the text, however many bytes the disk takes at a time. */
export function writeAll(file: number, text: string): void {
  const bytes = Buffer.from(text);
  for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
}

const WHY: Record<string, string> = {
  ENOSPC: "the disk is full",
  EDQUOT: "your share of the disk is full",
  EACCES: "you may not write there",
  EPERM: "you may not write there",
  EROFS: "the disk can only be read",
  ENOTDIR: "a file stands where a folder is wanted",
  EEXIST: "a file stands where a folder is wanted",
  EISDIR: "a folder of this name is in the way",
  ENOENT: "there is no such place",
  ENAMETOOLONG: "the name is too long",
  EIO: "the disk has a fault",
};

/** @throws DiskError in the words of people, with the path they know */
export function attempt<T>(path: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    throw diskError(path, error);
  }
}

export function diskError(path: string, error: unknown): unknown {
  const { code } = error as NodeJS.ErrnoException;
  return code === undefined ? error : new DiskError(`${path} cannot be written: ${WHY[code] ?? code}`);
}
