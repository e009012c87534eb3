import { cut } from "@rideon/sim-core";
import { STATUS } from "./ground/status.js";
import { ReadError, UsageError } from "./read/diagnostics.js";

/** What to say of an error and which status it gives. */
export interface Failure {
  status: number;
  lines: readonly string[];
}

/** Set to anything, it adds the stack to an error that should not be. */
const DEBUG = "RIDEON_DEBUG";

export function failureOf(error: unknown): Failure {
  if (error instanceof ReadError) return { status: STATUS.input, lines: [error.message] };
  if (error instanceof UsageError) return { status: STATUS.usage, lines: error.message.split("\n").map(said) };
  const { name, message, stack } = error instanceof Error ? error : new Error(String(error));
  if (name === "CommanderError") return { status: STATUS.usage, lines: [said(commandersWords(message))] };
  if (name === "DiskError") return { status: STATUS.unfinished, lines: [said(message)] };
  if (name === "RunError") {
    return { status: STATUS.unfinished, lines: [said(`the run could not be finished: ${message}`)] };
  }
  const ours = said(`this is a fault of the program, not of your files: ${name}: ${message.split("\n")[0]}`);
  return { status: STATUS.unfinished, lines: process.env[DEBUG] ? [ours, stack ?? ""] : [ours] };
}

const said = (message: string): string => `rideon: error: ${message}`;

/** `error: unknown option '--sped'\n(Did you mean --speed?)` and the like, on one line and in our own words. */
const commandersWords = (message: string): string =>
  message
    .replace(/^error: /, "")
    .replace(/\n\(Did you mean (.*)\?\)$/s, "; did you mean $1?")
    .replace(/^option '(--[\w-]+)[^']*' argument '(.*)' is invalid\. (.*)$/s, (_, option, value, why) =>
      [option, cut(value)].join(" ").trim().concat(`: ${why}`),
    )
    .replace(/^command-argument value '(.*)' is invalid for argument '(.*)'\. (.*)$/s, "$2: $3")
    .replace(/^option '(--[\w-]+) <(.*)>' argument missing$/, "$1 has no value: $1 <$2>")
    .replace(/^unknown command '(.*\.ya?ml)'$/, "there is no command $1; did you mean rideon run $1?")
    .replaceAll("\n", " ");
