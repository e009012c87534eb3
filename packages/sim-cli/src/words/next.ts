import { basename, relative } from "node:path";
import { quoted } from "../ground/shell.js";

/** Questions in the order in which one leads to the next. */
const ORDER = ["check", "size", "gears", "climb", "laps", "brakes", "limits", "trial", "report"] as const;
/** Where a question that stands beside the order joins it. */
const JOINS: Record<string, (typeof ORDER)[number]> = { new: "check", run: "laps" };

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
}

const REPEATED = ["passengers", "speed", "lever", "laps", "rail", "charge", "units"] as const;

/** How this program was started, so that a line can be pasted where this one was typed. */
export function started(argv: readonly string[] = process.argv, env: NodeJS.ProcessEnv = process.env): string {
  if (env.npm_lifecycle_event === "rideon") return "npm run -s rideon --";
  if (env.npm_command === "exec") return "npx rideon";
  const file = argv[1] ?? "rideon";
  return basename(file) === "rideon.js" ? `node ${quoted(relative("", file))}` : "rideon";
}

/** The line to ask next, about the same plan with the same changes; undefined after the last, and for a plan that was piped in. */
export function nextLine(name: string, plan: string, flags: Repeated): string | undefined {
  const next = JOINS[name] ?? ORDER[ORDER.indexOf(name as (typeof ORDER)[number]) + 1];
  if (next === undefined || plan === "-") return undefined;
  const again = [
    ...(plan === "plan.yaml" ? [] : [plan]),
    ...(flags.set ?? []).flatMap((set) => ["--set", set]),
    ...REPEATED.flatMap((flag) => (flags[flag] === undefined ? [] : [`--${flag}`, flags[flag]])),
    ...(next === "report" ? ["--out", "report"] : []),
  ];
  return [started(), next, ...again.map(quoted)].join(" ");
}
