import { coastdown } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { readCoasting } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { intoFile, type PutIn, putsOf } from "../../work/into.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
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
  const coasting = sheetIn(path, LIMIT_bytes, readCoasting);
  const { rotating } = flags;
  const answer = askedOf(path, coasting, () => coastdown(coasting.rows, rotating === undefined ? {} : { rotating }));
  const puts = putsOf(answer.fitted, `by coasting, ${answer.runs} runs`);
  let put: PutIn | undefined;
  if (flags.into !== undefined) {
    if (puts.length === 0)
      throw new UsageError(
        "--into: there is nothing to put there: let it coast both ways, and more often where the doubt is as wide as the figure",
      );
    put = intoFile(flags.into, puts, path === "-" ? [] : [path]);
  }
  if (flags.json)
    writeOut(jsonDocument({ command: "coastdown", warnings: [], assumed: [], step_s: null, step_error: null }, answer));
  else print(coastInWords(answer, puts, put));
  if (put && !flags.quiet) tell([`written: ${put.path}`]);
  return STATUS.answered;
}
