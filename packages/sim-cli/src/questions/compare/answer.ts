import { jsonDocument } from "../../files/json.js";
import { UsageError } from "../../read/diagnostics.js";
import { unitsFor } from "../../svg/units.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { intoFile, mustTake, putsOf } from "../../work/into.js";
import { leadsOn } from "../../work/leads.js";
import { endWith, openPlan } from "../../work/opened.js";
import { outputsOf } from "../../work/outputs.js";
import { alongFigure } from "./along.svg.js";
import { besideTheSums, type LogFlags, logIn } from "./logged.js";
import { READINGS, readingsCsv } from "./readings.js";
import { compareInWords } from "./words.js";

export interface CompareFlags extends LogFlags {
  fit?: readonly string[];
  into?: string;
  svg?: string;
}

/** @returns the exit status @throws ReadError, UsageError, RunError, DiskError */
export async function compared(path: string, plan: string, flags: CompareFlags): Promise<number> {
  if (path === "-" && plan === "-")
    throw new UsageError("the log and the plan cannot both come from standard input; give one as a file");
  if (flags.svg === "-" && flags.json)
    throw new UsageError("--svg - and --json both write to standard output; give --svg a file");
  // Before anything runs: what it fits is named.
  if (flags.into !== undefined && flags.fit === undefined)
    throw new UsageError("--into: tell --fit what to fit and put there, such as --fit loco.resistance.rolling");
  if (flags.into !== undefined) mustTake(flags.into, flags.fit ?? []);
  const log = await logIn(path, flags);
  const opened = await openPlan(plan, flags);
  const reads = [...opened.reading.files, ...(path === "-" ? [] : [path])];
  const outputs = outputsOf(flags, reads, ["answer.json", READINGS]);
  const worked = await besideTheSums(log, opened, flags);
  const { answer } = worked;
  const sound = answer.differs_still?.length === 0;
  const puts = putsOf(sound ? (answer.fitted ?? []) : [], `by ${Math.round(answer.compared_m)} m of a log`);
  if (flags.into !== undefined && puts.length === 0)
    throw new UsageError(
      `--into ${flags.into}: nothing was put there: ${sound ? "what was fitted is no surer than nothing, or beyond what its key takes" : "after the fit there is still more that differs than is left open"}`,
    );
  const { warnings, notes } = opened;
  const document = jsonDocument(
    { command: "compare", warnings, assumed: notes.assumed, step_s: null, step_error: null },
    answer,
  );
  outputs.write("answer.json", document);
  const readings = readingsCsv(answer, opened.eyes);
  outputs.write(READINGS, readings);
  if (flags.svg !== undefined) outputs.draw([alongFigure(answer, opened.eyes, unitsFor(opened.eyes))]);
  const written = outputs.finish();
  const put = flags.into === undefined ? undefined : intoFile(flags.into, puts, path === "-" ? [] : [path]);
  if (flags.json) writeOut(document);
  else if (flags.svg !== "-")
    print([
      ...compareInWords({ ...opened, ...worked, puts, put }),
      ...leadsOn("compare", { ...flags, plan }, { ...flags, log: path }),
    ]);
  if (!flags.quiet && written.length > 0) tell([`written: ${written.join(", ")}`]);
  if (!flags.quiet && put) tell([`written: ${put.path}`]);
  return endWith(opened, flags);
}
