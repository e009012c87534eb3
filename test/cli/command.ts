import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { cpSync, mkdtempSync } from "node:fs";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { inject } from "vitest";

const BIN = inject("command");
export const SITE = fileURLToPath(new URL("../../tracks/ostlemere/", import.meta.url));
/** Where every test has folders of its own. */
const FOLDERS = inject("folders");

export interface Ended {
  status: number | null;
  stdout: string;
  stderr: string;
}

interface Setting {
  /** Is how sure the answer is asked for too? */
  bands?: boolean;
  cwd?: string;
  input?: string;
  env?: Record<string, string>;
}

/** Starts the built command as people do. */
export const start = (args: readonly string[], { cwd, env = {} }: Setting = {}): ChildProcess =>
  spawn(process.execPath, [BIN, ...args], { cwd, env: { ...process.env, NO_COLOR: "", ...env } });

/** What was asked of files that no test changes: asked once, whoever tests the answer. */
const asked = new Map<string, Promise<Ended>>();

/** Questions whose bands take seconds, and are wanted by few tests: those say `--draws`, or ask for `bands`. */
const BANDED = ["check", "run", "laps", "climb", "gears", "brakes", "size", "limits"];

const withoutBands = (args: readonly string[], { bands }: Setting): readonly string[] =>
  BANDED.includes(args[0] ?? "") && !bands && !args.some((arg) => /^--(draws|seed|sure|help)$|^-h$/.test(arg))
    ? [args[0] as string, "--sure", ...args.slice(1)]
    : args;

/** Runs the built command to its end. */
export function rideon(given: readonly string[], setting: Setting = {}): Promise<Ended> {
  const args = withoutBands(given, setting);
  const changing = setting.cwd ?? setting.input ?? args.find((arg) => arg.includes(FOLDERS));
  const key = JSON.stringify([args, setting.env]);
  const answer = (changing === undefined && asked.get(key)) || toItsEnd(args, setting);
  if (changing === undefined) asked.set(key, answer);
  return answer;
}

function toItsEnd(args: readonly string[], setting: Setting): Promise<Ended> {
  const child = start(args, setting);
  // A command line that will not do is told before any input is read: what is written then meets nobody.
  child.stdin?.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
  });
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

/** Waits as long as it takes, or as a test may. */
export async function until(happened: () => boolean): Promise<void> {
  while (!happened()) await setTimeout(10);
}

/** A line for the shell, with the command as `$RIDEON`. */
export function shell(line: string, cwd: string): Promise<Ended> {
  const env = { ...process.env, RIDEON: `${process.execPath} ${BIN}` };
  return ended(spawn("bash", ["-o", "pipefail", "-c", line], { cwd, env }));
}

export const emptyFolder = (): string => mkdtempSync(join(FOLDERS, "rideon-"));

/** A copy of the invented site, free to be changed. */
export function siteFolder(): string {
  const folder = emptyFolder();
  cpSync(SITE, folder, { recursive: true });
  return folder;
}

/** A site whose track is a pipe that nobody has written into yet. */
export function withPipe(): string {
  const folder = siteFolder();
  execFileSync("rm", [join(folder, "track.csv")]);
  execFileSync("mkfifo", [join(folder, "track.csv")]);
  return folder;
}
