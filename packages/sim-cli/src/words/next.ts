import { basename, relative } from "node:path";
import { quoted } from "../ground/shell.js";

/** Questions in the order in which one leads to the next. */
const ORDER = ["check", "size", "gears", "climb", "laps", "brakes", "limits", "trial", "report"] as const;
/** Where a question that stands beside the order joins it. */
const JOINS: Record<string, (typeof ORDER)[number]> = {
  new: "check",
  run: "laps",
  parts: "trial",
  wiring: "trial",
  // What was measured is in the file from now on: what it changes is the judgement.
  pull: "limits",
  coastdown: "limits",
  battery: "laps",
  // What the log says is counted there, and nowhere without it.
  compare: "report",
  sweep: "limits",
};

/** What a question is asked again with. */
export interface Repeated {
  set?: readonly string[];
  passengers?: string;
  speed?: string;
  lever?: string;
  laps?: string;
  rail?: string;
  charge?: string;
  units?: string;
  /** A logged run, and how it is read and laid along the line. */
  log?: string;
  column?: readonly string[];
  from?: string;
}

const REPEATED = ["passengers", "speed", "lever", "laps", "rail", "charge", "units"] as const;

/** How this program was started, so that a line can be pasted where this one was typed. */
export function started(argv: readonly string[] = process.argv, env: NodeJS.ProcessEnv = process.env): string {
  const file = argv[1] ?? "rideon";
  const linked = basename(file) === "rideon";
  if (linked) return env.npm_command === "exec" ? "npx rideon" : "rideon";
  return env.npm_lifecycle_event === "rideon" ? "npm run -s rideon --" : `node ${quoted(relative("", file))}`;
}

/** Set in, with what stands on the lines after the first. */
const INDENT = "  ";

/**
 * What to ask next, about the same plan with the same changes; nothing after the last, and for a plan that was piped in.
 * A long line goes on after a backslash, as shells have it.
 */
export function nextLines(name: string, plan: string, flags: Repeated, columns: number): string[] {
  const next = JOINS[name] ?? ORDER[ORDER.indexOf(name as (typeof ORDER)[number]) + 1];
  if (next === undefined || plan === "-" || flags.log === "-") return [];
  const words = [
    `${started()} ${next}`,
    ...(plan === "plan.yaml" ? [] : [quoted(plan)]),
    ...(flags.set ?? []).map((set) => `--set ${quoted(set)}`),
    ...REPEATED.flatMap((flag) => (flags[flag] === undefined ? [] : [`--${flag} ${quoted(flags[flag])}`])),
    ...(flags.log === undefined ? [] : [`--log ${quoted(flags.log)}`]),
    ...(flags.column ?? []).map((column) => `--column ${quoted(column)}`),
    ...(flags.from === undefined ? [] : [`--from ${quoted(flags.from)}`]),
    ...(next === "report" ? ["--out report"] : []),
  ];
  const lines: string[] = [];
  for (const word of words) {
    const line = lines.at(-1);
    if (line !== undefined && INDENT.length + line.length + word.length + 3 <= columns)
      lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(lines.length === 0 ? word : `${INDENT}${word}`);
  }
  return ["Next:", ...lines.map((line, i) => `${INDENT}${line}${i < lines.length - 1 ? " \\" : ""}`)];
}
