import { check as worked } from "@rideon/sim-core";
import type { PlanFlags } from "../options.js";
import { checkInWords } from "../write/check.words.js";
import { wholeFiles } from "../write/files.js";
import { jsonDocument } from "../write/json.js";
import { print, tell } from "../write/terminal.js";
import { endWith, openPlan } from "./opened.js";

/** What the files come to before anything runs. @returns the exit status */
export async function check(path: string, flags: PlanFlags): Promise<number> {
  const opened = openPlan(path, flags);
  const files = flags.out === undefined ? undefined : wholeFiles(flags.out);
  const answer = worked(opened.plan);
  const { warnings, plan } = opened;
  const heading = { command: "check", warnings, assumed: plan.notes.assumed, step_s: null, step_error: null };
  const document = jsonDocument(heading, answer);
  files?.write("answer.json", document);
  const written = files?.finish() ?? [];
  if (flags.json) process.stdout.write(document);
  else print(checkInWords(opened, answer));
  if (written.length > 0 && !flags.quiet) tell([`written: ${written.join(", ")}`]);
  return endWith(opened, flags);
}
