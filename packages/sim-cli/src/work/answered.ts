import { jsonDocument } from "../files/json.js";
import { UsageError } from "../read/diagnostics.js";
import { nextLines } from "../words/next.js";
import { type Progress, progressLine } from "../words/progress.js";
import type { Ready } from "../words/ready.js";
import { surenessLines } from "../words/sureness.js";
import { print, tell, terminal, writeOut } from "../words/terminal.js";
import type { Asked, Worked } from "./asking.js";
import { difference } from "./difference.js";
import { filesOf } from "./files.js";
import type { AskedFlags } from "./flags.js";
import type { Job } from "./job.js";
import { endWith, openPlan } from "./opened.js";
import { outputsOf } from "./outputs.js";
import { surenessOf } from "./sureness.js";
import { onThread } from "./thread.js";

/** Opens, asks, writes the files asked for, and prints. @returns the exit status */
export async function answered<F extends AskedFlags, W extends Worked, R extends Ready>(
  question: Asked<F, W, R>,
  path: string,
  flags: F,
): Promise<number> {
  if (flags.svg === "-" && flags.json)
    throw new UsageError("--svg - and --json both write to standard output; give --svg a file");
  const ready = await (question.open ?? (openPlan as unknown as NonNullable<typeof question.open>))(path, flags);
  const outputs = outputsOf(flags, ready.reading.files, question.files);
  const usual_s = question.step_s?.(ready);
  const job: Job<object> = {
    ...filesOf(ready.reading),
    own: question.own?.(flags, ready) ?? {},
    step_s: flags.step,
    every_s: question.every_s?.(flags) ?? Number.POSITIVE_INFINITY,
    drawn: flags.svg !== undefined,
  };
  const step_s = flags.step ?? usual_s ?? Number.NaN;
  const progress = progressLine(flags.quiet === true);
  if (question.doing !== undefined) progress.say(question.doing);
  const ask = async (what: Job<object>, onProgress?: (progress: Progress) => void): Promise<W> =>
    question.atOnce ? question.atOnce(ready) : onThread(question.name, what, onProgress);
  const [worked, half] = await Promise.all([
    ask({ ...job, trace: outputs.begun("trace.csv") }, progress.show),
    flags.checkStep ? ask({ ...job, step_s: step_s / 2, drawn: false }) : undefined,
  ]).finally(progress.clear);
  const { telling } = await question.tell();
  const wanted = flags.sure || flags.svg === "-" ? undefined : question.doubt?.(worked, flags);
  const sure = wanted && (() => surenessOf(job, wanted, flags, progress.show).finally(progress.clear));
  // Where files are wanted they come first, whoever reads the words; else the answer is told at once.
  const waits = question.doubtLeads || flags.json || flags.out !== undefined || flags.svg !== undefined;
  const early = waits ? await sure?.() : undefined;
  const told = {
    ...ready,
    ...worked,
    step_s,
    half: half?.answer,
    quiet: flags.quiet === true,
    all: flags.all === true,
    sureness: early,
  };
  const inWords = !flags.json && flags.svg !== "-";
  if (inWords && !waits) print(telling.inWords(told));
  const sureness = early ?? (await sure?.());
  const document = jsonDocument(
    {
      command: question.name,
      warnings: told.warnings,
      assumed: told.notes.assumed,
      step_s: Number.isNaN(step_s) ? null : step_s,
      step_error: half ? difference(told.answer, half.answer) : null,
    },
    { ...told.answer, ...sureness },
  );
  telling.write?.(told, outputs);
  outputs.write("answer.json", document);
  if (flags.svg !== undefined && telling.draw) outputs.draw(telling.draw({ ...told, sureness }));
  const written = outputs.finish();
  const surely = sureness && !question.doubtLeads ? surenessLines(sureness, told) : [];
  const next = flags.quiet ? [] : nextLines(question.name, path, flags, terminal().columns);
  if (flags.json) writeOut(document);
  else if (inWords) print([...(waits ? telling.inWords(told) : []), ...surely, ...next]);
  if (written.length > 0 && !flags.quiet) tell([`written: ${written.join(", ")}`]);
  return endWith(ready, flags);
}
