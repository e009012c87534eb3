import { existsSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { STATUS } from "../failure.js";
import { ReadError } from "../read/diagnostics.js";
import { filesToStartFrom } from "../read/template.js";
import { attempt, makeFolder } from "../write/files.js";
import { print } from "../write/terminal.js";

/** Starts a folder with files that run as they are; whatever stands there stays as it is. @returns the exit status */
export async function startFolder(folder: string): Promise<number> {
  const files = Object.entries(filesToStartFrom()).map(([name, text]) => ({ path: join(folder, name), text }));
  refuseExisting(files.map(({ path }) => path).filter((path) => existsSync(path)));
  makeFolder(folder);
  writeAllOrNone(files);
  const plan = files.map(({ path }) => path).find((path) => path.endsWith("plan.yaml")) ?? "plan.yaml";
  print([
    `Written: ${files.map(({ path }) => path).join(", ")}. Their figures are invented: put your own in their place.`,
    "Try them:",
    `  rideon run${plan === "plan.yaml" ? "" : ` ${quoted(plan)}`}`,
  ]);
  return STATUS.answered;
}

function refuseExisting(paths: readonly string[]): void {
  if (paths.length === 0) return;
  throw new ReadError(paths.map((file) => ({ file, message: "it stands here already; nothing was written" })));
}

/** A file that came to stand there in the meantime is not written over either. */
function writeAllOrNone(files: readonly { path: string; text: string }[]): void {
  const written: string[] = [];
  try {
    for (const { path, text } of files) {
      attempt(path, () => writeFileSync(path, text, { flag: "wx" }));
      written.push(path);
    }
  } catch (error) {
    for (const path of written) rmSync(path);
    throw error;
  }
}

/** As a shell takes it. */
const quoted = (path: string): string => (/[^\w./-]/.test(path) ? `"${path}"` : path);
