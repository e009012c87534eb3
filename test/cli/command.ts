import { type ChildProcess, spawn } from "node:child_process";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";

const BIN = fileURLToPath(new URL("../../packages/sim-cli/bin/rideon.js", import.meta.url));
export const SITE = fileURLToPath(new URL("../../tracks/ostlemere/", import.meta.url));

export interface Ended {
  status: number | null;
  stdout: string;
  stderr: string;
}

interface Setting {
  cwd?: string;
  input?: string;
  env?: Record<string, string>;
}

/** Starts the built command as people do. */
export const start = (args: readonly string[], { cwd, env = {} }: Setting = {}): ChildProcess =>
  spawn(process.execPath, [BIN, ...args], { cwd, env: { ...process.env, NO_COLOR: "", ...env } });

/** Runs the built command to its end. */
export function rideon(args: readonly string[], setting: Setting = {}): Promise<Ended> {
  const child = start(args, setting);
  child.stdin?.end(setting.input ?? "");
  return ended(child);
}

export function ended(child: ChildProcess): Promise<Ended> {
  let [stdout, stderr] = ["", ""];
  child.stdout?.setEncoding("utf8").on("data", (text) => {
    stdout += text;
  });
  child.stderr?.setEncoding("utf8").on("data", (text) => {
    stderr += text;
  });
  return new Promise((resolve, reject) => {
    child.on("error", reject).on("close", (status) => resolve({ status, stdout, stderr }));
  });
}

/** A line for the shell, with the command as `$RIDEON`. */
export function shell(line: string, cwd: string): Promise<Ended> {
  const env = { ...process.env, RIDEON: `${process.execPath} ${BIN}` };
  return ended(spawn("bash", ["-o", "pipefail", "-c", line], { cwd, env }));
}

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "rideon-"));
  folders.push(folder);
  return folder;
}

/** A copy of the invented site, free to be changed. */
export function siteFolder(): string {
  const folder = emptyFolder();
  cpSync(SITE, folder, { recursive: true });
  return folder;
}
