import { jsonDocument } from "../files/json.js";
import { outputsOf } from "../files/outputs.js";
import type { Figure } from "../svg/draw.js";
import { type Progress, progressLine } from "../words/progress.js";
import { print, tell, writeOut } from "../words/terminal.js";
import { mindStdout, type SvgFlags } from "./drawn.js";
import { endWith, type Ready } from "./opened.js";
import type { PlanFlags } from "./options.js";

/** A question that no single long run answers. */
interface Question<R extends Ready, A extends object> {
  command: string;
  /** What is shown while it is worked out on a thread of its own; absent of what is answered at once. */
  doing?: string;
  work: (ready: R, onProgress: (progress: Progress) => void) => A | Promise<A>;
  inWords: (ready: R, answer: A, quiet: boolean) => readonly string[];
  /** Its pictures, for `--svg`. */
  draw?: (ready: R, answer: A) => readonly Figure[];
  /** Step of what was simulated on the way; null where nothing was. */
  step_s?: number | null;
}

/** Works out, writes the file asked for, and prints: what `check`, `climb` and `size` have in common. @returns the exit status */
export async function answered<R extends Ready, A extends object>(
  ready: R,
  flags: PlanFlags & SvgFlags,
  { command, doing, work, inWords, draw, step_s = null }: Question<R, A>,
): Promise<number> {
  mindStdout(flags);
  const outputs = outputsOf(flags, ready.reading.files, ["answer.json"]);
  const progress = progressLine(flags.quiet === true);
  if (doing !== undefined) progress.say(doing);
  const answer = await Promise.resolve(work(ready, progress.show)).finally(progress.clear);
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
