import type { PlanFlags } from "../options.js";
import type { Figure } from "../svg/draw.js";
import { jsonDocument } from "../write/json.js";
import { print, tell, writeOut } from "../write/terminal.js";
import { mindStdout, type SvgFlags } from "./drawn.js";
import { endWith, type Ready } from "./opened.js";
import { outputsOf } from "./outputs.js";

/** A question that is answered at once. */
interface Question<R extends Ready, A extends object> {
  command: string;
  work: (ready: R) => A;
  inWords: (ready: R, answer: A, quiet: boolean) => readonly string[];
  /** Its pictures, for `--svg`. */
  draw?: (ready: R, answer: A) => readonly Figure[];
  /** Step of what was simulated on the way; null where nothing was. */
  step_s?: number | null;
}

/** Works out, writes the file asked for, and prints: what `check`, `climb` and `size` have in common. @returns the exit status */
export function answered<R extends Ready, A extends object>(
  ready: R,
  flags: PlanFlags & SvgFlags,
  { command, work, inWords, draw, step_s = null }: Question<R, A>,
): number {
  mindStdout(flags);
  const outputs = outputsOf(flags, ready.reading.files, ["answer.json"]);
  const answer = work(ready);
  const { warnings, notes } = ready;
  const document = jsonDocument({ command, warnings, assumed: notes.assumed, step_s, step_error: null }, answer);
  outputs.write("answer.json", document);
  if (flags.svg !== undefined && draw) outputs.draw(draw(ready, answer));
  const written = outputs.finish();
  if (flags.json) writeOut(document);
  else if (flags.svg !== "-") print(inWords(ready, answer, flags.quiet === true));
  if (written.length > 0 && !flags.quiet) tell([`written: ${written.join(", ")}`]);
  return endWith(ready, flags);
}
