import { type LevelsAnswer, levels, levelsOfSlopes } from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { type Book, readBook } from "../../read/index.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { outputsOf } from "../../work/outputs.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { lineFigure } from "./line.svg.js";
import { profileCsv } from "./profile.js";
import { levelsInWords } from "./words.js";

export interface LevelsFlags {
  class?: { class_mm: number; per: "km" | "setups" };
  adjust?: "distance" | "setups" | "none";
  /** Nineteen in twenty, mm. */
  reading?: number;
  json?: true;
  out?: string;
  svg?: string;
  quiet?: true;
}

/** Larger books are not kept by hand. */
const BOOK_LIMIT_bytes = 1024 * 1024;
const NINETEEN_IN_TWENTY = 1.959963984540054;

/** @returns the exit status @throws ReadError, UsageError, DiskError */
export async function reduced(path: string, flags: LevelsFlags): Promise<number> {
  if (flags.svg === "-" && flags.json)
    throw new UsageError("--svg - and --json both write to standard output; give --svg a file");
  const book = sheetIn(path, BOOK_LIMIT_bytes, readBook);
  const outputs = outputsOf(flags, path === "-" ? [] : [path], ["track.csv", "answer.json"]);
  const answer = answerTo(path, book, flags);
  const document = jsonDocument(
    { command: "levels", warnings: [], assumed: [], step_s: null, step_error: null },
    answer,
  );
  const profile = profileCsv(answer, path);
  if (profile !== undefined) outputs.write("track.csv", profile);
  outputs.write("answer.json", document);
  if (flags.svg !== undefined) outputs.draw([lineFigure(answer)]);
  const written = outputs.finish();
  if (flags.json) writeOut(document);
  else if (flags.svg !== "-")
    print(levelsInWords(answer, { kind: book.kind, profile: profile !== undefined, written }));
  if (written.length > 0 && !flags.quiet) tell([`written: ${written.join(", ")}`]);
  return STATUS.answered;
}

function answerTo(path: string, book: Book, flags: LevelsFlags): LevelsAnswer {
  const sd_m = flags.reading === undefined ? {} : { reading_sd_m: flags.reading / 1000 / NINETEEN_IN_TWENTY };
  return askedOf(path, book, () =>
    book.kind === "slopes"
      ? levelsOfSlopes(book.rows)
      : levels(book.rows, { ...flags.class, ...(flags.adjust && { adjust: flags.adjust }), ...sd_m }),
  );
}
