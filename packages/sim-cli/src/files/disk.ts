import { mkdirSync, rmdirSync, statSync, writeSync } from "node:fs";
import { dirname } from "node:path";

/** The disk would not: full, not writable, something else in the way. Exit status 3. */
export class DiskError extends Error {
  override readonly name = "DiskError";
}

/**
 * Makes a folder and those above it that are wanting. One at a time: Node's own way of making all of them never comes back
 * from where the system lets none be made, as under /proc.
 * @returns the folders made, the topmost first
 * @throws DiskError
 */
export function makeFolder(folder: string): string[] {
  if (attempt(folder, () => statSync(folder, { throwIfNoEntry: false })?.isDirectory())) return [];
  const above = dirname(folder);
  const made = above === folder ? [] : makeFolder(above);
  try {
    attempt(folder, () => mkdirSync(folder));
  } catch (error) {
    unmakeFolders(made);
    throw error;
  }
  return [...made, folder];
}

/** Takes folders away that were made, those that nothing has come to stand in. */
export function unmakeFolders(folders: readonly string[]): void {
  for (const folder of folders.toReversed()) {
    try {
      rmdirSync(folder);
    } catch {
      return;
    }
  }
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
  EFBIG: "it would be larger than files may be here",
  EBUSY: "it is in use",
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
