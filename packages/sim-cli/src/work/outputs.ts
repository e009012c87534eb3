import { join } from "node:path";
import { wholeFiles } from "../files/files.js";
import { alone, type Figure, WIDE } from "../svg/draw.js";
import { writeOut } from "../words/terminal.js";

/** Where the files of an answer are wanted. */
interface Wanted {
  /** A folder for those of fixed names. */
  out?: string;
  /** A file for the picture alone, or - for standard output. */
  svg?: string;
}

/** What a command writes besides its words: the files of its folder and its picture, all of them or none. */
export interface Outputs {
  /** A file of the folder that is begun, to be written piece by piece: open, and its path. */
  begun(name: string): { file: number; path: string } | undefined;
  /** Writes a file of the folder, where one is wanted. */
  write(name: string, text: string): void;
  /** Writes the picture where it is wanted; without a file for it, prints it. */
  draw(figures: readonly Figure[]): void;
  /** Gives the files their names. @returns where they stand */
  finish(): string[];
}

/**
 * Begins what is sure to be written, so that a wrong folder or file is told before anything runs.
 * @param reads the files that were read, whose place none may take; @param names of files in the folder
 * @throws DiskError, UsageError
 */
export function outputsOf({ out, svg }: Wanted, reads: readonly string[], names: readonly string[]): Outputs {
  const files = wholeFiles(reads);
  const inFolder = (name: string) => join(out ?? "", name);
  const begun = new Map<string, { file: number; path: string }>();
  for (const name of out === undefined ? [] : names)
    begun.set(name, { file: files.open(inFolder(name)), path: inFolder(name) });
  if (svg !== undefined && svg !== "-") files.open(svg);
  return {
    begun: (name) => begun.get(name),
    write(name, text) {
      if (out !== undefined) files.write(inFolder(name), text);
    },
    draw(figures) {
      const text = alone(figures, WIDE);
      if (svg === "-") writeOut(text);
      else if (svg !== undefined) files.write(svg, text);
    },
    finish: files.finish,
  };
}
