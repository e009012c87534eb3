import { existsSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { attempt, makeFolder, unmakeFolders } from "../../files/disk.js";
import { STATUS } from "../../ground/status.js";
import { ReadError } from "../../read/diagnostics.js";
import { filesToStartFrom } from "../../read/keys/template.js";
import { nextLines } from "../../words/next.js";
import { print, terminal } from "../../words/terminal.js";

/** Starts a folder with files that run as they are; whatever stands there stays as it is. @returns the exit status */
export async function startFolder(folder: string): Promise<number> {
  const files = Object.entries(filesToStartFrom()).map(([name, text]) => ({ path: join(folder, name), text }));
  refuseExisting(files.map(({ path }) => path).filter((path) => existsSync(path)));
  writeAllOrNone(folder, files);
  const plan = files.map(({ path }) => path).find((path) => path.endsWith("plan.yaml")) ?? "plan.yaml";
  print([
    `Written: ${files.map(({ path }) => path).join(", ")}. Their figures are invented: put your own in their place.`,
    ...nextLines("new", plan, {}, terminal().columns),
  ]);
  return STATUS.answered;
}

function refuseExisting(paths: readonly string[]): void {
  if (paths.length === 0) return;
  throw new ReadError(paths.map((file) => ({ file, message: "it stands here already; nothing was written" })));
}

/** A file that came to stand there in the meantime is not written over either. */
function writeAllOrNone(folder: string, files: readonly { path: string; text: string }[]): void {
  const folders = makeFolder(folder);
  const written: string[] = [];
  try {
    for (const { path, text } of files) {
      attempt(path, () => {
        // Made first and filled then, so that one the disk has no room for is taken away again.
        writeFileSync(path, "", { flag: "wx" });
        written.push(path);
        writeFileSync(path, text);
      });
    }
  } catch (error) {
    for (const path of written) rmSync(path, { force: true });
    unmakeFolders(folders);
    throw error;
  }
}
