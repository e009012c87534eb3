import { linkSync, lstatSync, renameSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { attempt, diskError } from "./disk.js";

/** A file that is written under another name. */
export interface Unnamed {
  path: string;
  temporary: string;
}

/** A name beside a file's own, for while it is written; no other process has it. */
export const beside = (path: string, ending: string): string =>
  join(dirname(path), `.${basename(path)}.${process.pid}.${ending}`);

/**
 * Gives files their names, in place of older ones; all of them, or, where one cannot have its own, none, and the older
 * ones stand as they stood.
 * @throws DiskError
 */
export function giveNames(files: readonly Unnamed[]): void {
  const named: { path: string; old: boolean }[] = [];
  try {
    for (const { path, temporary } of files) {
      const old = keepOld(path);
      try {
        renameSync(temporary, path);
      } catch (error) {
        if (old) bringBack(path);
        throw diskError(path, error);
      }
      named.push({ path, old });
    }
  } catch (error) {
    for (const { path, old } of named.toReversed()) {
      if (old) bringBack(path);
      else rmSync(path, { force: true });
    }
    throw error;
  }
  for (const { path, old } of named) if (old) rmSync(beside(path, "old"), { force: true });
}

/** Keeps the older file of a name under another. @returns is there one? @throws DiskError */
function keepOld(path: string): boolean {
  const found = lstatSync(path, { throwIfNoEntry: false });
  // A folder gives way to no file.
  if (!found || found.isDirectory()) return false;
  try {
    // It keeps its own name as well, so that there is always a file of that name.
    linkSync(path, beside(path, "old"));
  } catch {
    attempt(path, () => renameSync(path, beside(path, "old")));
  }
  return true;
}

function bringBack(path: string): void {
  renameSync(beside(path, "old"), path);
  // Two names of one file are not made one by renaming.
  rmSync(beside(path, "old"), { force: true });
}
