import { type CoastdownAnswer, coastdown, InputError } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { type Diagnostic, ReadError, UsageError } from "../../read/diagnostics.js";
import { type Coasting, readCoasting } from "../../read/index.js";
import { label, opened } from "../../read/text/open.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { intoFile, type PutIn, putsOf } from "../../work/into.js";
import { coastInWords } from "./words.js";

export interface CoastFlags {
  rotating?: number;
  into?: string;
  json?: true;
  quiet?: true;
}

/** Hours of readings ten times a second. */
const LIMIT_bytes = 4 * 1024 * 1024;

/** @returns the exit status @throws ReadError, UsageError, DiskError */
export async function coasted(path: string, flags: CoastFlags): Promise<number> {
  const coasting = coastingIn(path);
  const answer = answerTo(path, coasting, flags);
  const puts = putsOf(answer.fitted, `by coasting, ${answer.runs} runs`);
  let put: PutIn | undefined;
  if (flags.into !== undefined) {
    if (puts.length === 0) throw new UsageError("--into: there is nothing to put there; let it coast both ways first");
    put = intoFile(flags.into, puts, path === "-" ? [] : [path]);
  }
  if (flags.json)
    writeOut(jsonDocument({ command: "coastdown", warnings: [], assumed: [], step_s: null, step_error: null }, answer));
  else print(coastInWords(answer, puts, put));
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}

function coastingIn(path: string): Coasting {
  const found = { problems: [] as Diagnostic[], usage: [] as string[], arrived: undefined };
  const text = opened(found, { path }, LIMIT_bytes);
  const coasting = text === undefined ? undefined : readCoasting(label(path), text, found.problems);
  if (!coasting) throw new ReadError(found.problems);
  return coasting;
}

function answerTo(path: string, { rows, lines }: Coasting, { rotating }: CoastFlags): CoastdownAnswer {
  try {
    return coastdown(rows, rotating === undefined ? {} : { rotating });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const lineOf = (at: string) => lines[Number(at.replace("coastdown.", "")) - 1] ?? 1;
    throw new ReadError(
      error.problems.map((each) => ({ file: label(path), line: lineOf(each.path), message: each.message })),
    );
  }
}
