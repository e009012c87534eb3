import { accessSync, closeSync, constants, openSync, realpathSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { UsageError } from "../read/diagnostics.js";
import { attempt, DiskError, makeFolder, unmakeFolders, writeAll } from "./disk.js";
import { beside, giveNames } from "./names.js";

export { attempt, DiskError, diskError, makeFolder, unmakeFolders, writeAll } from "./disk.js";

/** Files of an answer: until all are written none has its name, and then all have theirs, or none. */
export interface WholeFiles {
  /** Begins a file, so that what is in its way is told before anything runs; its name appears with `finish`. */
  open(path: string): number;
  /** Writes a file that is begun, or begins it. */
  write(path: string, text: string): void;
  /** A file that is written in a way of its own, under its own name: none of these takes its place, nor it a read one's. */
  keep(path: string): void;
  /** Closes all and gives them their names, in place of older files of these names; tells where they stand. */
  finish(): string[];
  /** Leaves nothing behind but what was there before. */
  discard(): void;
}

interface Begun {
  path: string;
  temporary: string;
  file: number;
}

/** What an interrupted command must clear away. */
const unfinished = new Set<WholeFiles>();

export const discardUnfinished = (): void => {
  for (const files of unfinished) files.discard();
};

/**
 * @param reads files that are read, whose place none may take
 * @throws DiskError; UsageError where a file would take the place of one that is read, or of another of these
 */
export function wholeFiles(reads: readonly string[] = []): WholeFiles {
  const inputs = new Map(reads.map((path) => [identityOf(path), path]));
  const begun: Begun[] = [];
  const kept: string[] = [];
  const folders: string[] = [];

  function mustBeFree(path: string): void {
    folders.push(...makeFolder(dirname(path)));
    const input = inputs.get(attempt(path, () => identityOf(path)) ?? "");
    if (input !== undefined) throw new UsageError(`${path} would take the place of ${input}, which is read`);
    const place = placeOf(path);
    const rival = [...kept, ...begun.map((each) => each.path)].find((each) => placeOf(each) === place);
    if (rival) throw new UsageError(`${path} would be written twice; give one of the two another name`);
    mindWhatIsThere(path);
  }

  function open(path: string): number {
    mustBeFree(path);
    const temporary = beside(path, "tmp");
    rmSync(temporary, { force: true });
    const file = attempt(path, () => openSync(temporary, "wx"));
    begun.push({ path, temporary, file });
    return file;
  }

  const files: WholeFiles = {
    open,
    keep(path) {
      mustBeFree(path);
      kept.push(path);
    },
    write(path, text) {
      const file = begun.find((each) => each.path === path)?.file ?? open(path);
      attempt(path, () => writeAll(file, text));
    },
    finish() {
      for (const { path, file } of begun) attempt(path, () => closeSync(file));
      giveNames(begun);
      unfinished.delete(files);
      return begun.map(({ path }) => path);
    },
    discard() {
      for (const { temporary } of begun) rmSync(temporary, { force: true });
      unmakeFolders(folders);
      unfinished.delete(files);
    },
  };
  unfinished.add(files);
  return files;
}

/** The same for every way to write a path whose folder is there. */
const placeOf = (path: string): string => attempt(path, () => join(realpathSync(dirname(path)), basename(path)));

/** The same for every name of a file that is there. */
function identityOf(path: string): string | undefined {
  const found = statSync(path, { bigint: true, throwIfNoEntry: false });
  return found && `${found.dev}:${found.ino}`;
}

/** Only an ordinary file that may be written is replaced, though a folder's owner could replace any. @throws DiskError */
function mindWhatIsThere(path: string): void {
  const found = attempt(path, () => statSync(path, { throwIfNoEntry: false }));
  if (!found) return;
  if (found.isDirectory()) throw new DiskError(`${path} cannot be written: a folder of this name is in the way`);
  if (!found.isFile()) throw new DiskError(`${path} cannot be written: it is no ordinary file`);
  attempt(path, () => accessSync(path, constants.W_OK));
  const folder = statSync(dirname(path));
  const own = [0, found.uid, folder.uid].includes(process.geteuid?.() ?? 0);
  // As in /tmp, where everybody may write, and take away nothing but what is theirs.
  if ((folder.mode & STICKY) !== 0 && !own) throw new DiskError(`${path} cannot be written: it is somebody else's`);
}

const STICKY = 0o1000;
