import {
  type FixesAnswer,
  type LevelsAnswer,
  levels,
  levelsOfFixes,
  levelsOfSlopes,
  steepSlopes,
} from "@rideon/sim-core";
import { jsonDocument } from "../../files/json.js";
import { STATUS } from "../../ground/status.js";
import { UsageError } from "../../read/diagnostics.js";
import { type Book, readSurvey, SURVEY_LIMIT_bytes, type Track } from "../../read/index.js";
import { label } from "../../read/text/open.js";
import { print, tell, writeOut } from "../../words/terminal.js";
import { warningLine } from "../../words/warnings.js";
import { outputsOf } from "../../work/outputs.js";
import { askedOf, sheetIn } from "../../work/sheet.js";
import { lineFigure } from "./line.svg.js";
import { profileCsv } from "./profile.js";
import { receivedInWords } from "./received.js";
import { outOfLine } from "./standing.js";
import { type Asked, levelsInWords } from "./words.js";

export interface LevelsFlags {
  class?: { class_mm: number; per: "km" | "setups" };
  adjust?: "distance" | "setups" | "none";
  /** Nineteen in twenty, mm: of a reading of the staff, or of the difference of two heights of a receiver. */
  reading?: number;
  json?: true;
  out?: string;
  svg?: string;
  quiet?: true;
}

/** Of a staff, mm. */
const MOST_READING_mm = 100;
const NINETEEN_IN_TWENTY = 1.959963984540054;

/** @returns the exit status @throws ReadError, UsageError, DiskError */
export async function reduced(path: string, flags: LevelsFlags): Promise<number> {
  if (flags.svg === "-" && flags.json)
    throw new UsageError("--svg - and --json both write to standard output; give --svg a file");
  const book = sheetIn(path, SURVEY_LIMIT_bytes, readSurvey);
  refuseStrange(book, flags);
  const outputs = outputsOf(flags, path === "-" ? [] : [path], ["track.csv", "answer.json"]);
  const answer = answerTo(path, book, flags);
  const warn = (code: string, row: number, message: string) => ({
    code,
    file: label(path),
    line: book.lines[row] ?? null,
    column: null,
    message,
  });
  const warnings = [
    ...answer.unchecked.flatMap((sight) =>
      sight.out_of_line ? [warn("out_of_line", sight.point, outOfLine(sight))] : [],
    ),
    ...(book.kind === "slopes" ? steepSlopes(book.rows).map(({ row, message }) => warn("steep", row, message)) : []),
  ];
  const document = jsonDocument({ command: "levels", warnings, assumed: [], step_s: null, step_error: null }, answer);
  const profile = profileCsv(answer, path, book.kind);
  if (profile !== undefined) outputs.write("track.csv", profile);
  outputs.write("answer.json", document);
  if (flags.svg !== undefined) outputs.draw([lineFigure(answer)]);
  const written = outputs.finish();
  if (flags.json) writeOut(document);
  else if (flags.svg !== "-")
    print(
      wordsOf(
        answer,
        {
          kind: book.kind,
          tube: book.kind === "book" && book.tube,
          profile: profile !== undefined,
          written,
          class: flags.class,
        },
        book,
      ),
    );
  tell(warnings.map(warningLine));
  if (written.length > 0 && !flags.quiet) tell([`written: ${written.join(", ")}`]);
  return STATUS.answered;
}

/** What is asked of a book of another kind is told rather than left undone. @throws UsageError */
function refuseStrange({ kind }: Book | Track, { class: asked, adjust, reading }: LevelsFlags): void {
  const survey = kind === "fixes" ? "a receiver's track" : "slopes";
  if (kind !== "book" && asked) throw new UsageError(`--class is that of a levelling book, and this is ${survey}`);
  if (kind !== "book" && adjust === "setups")
    throw new UsageError(`--adjust setups wants set-ups, and this is ${survey}`);
  if (kind === "slopes" && adjust) throw new UsageError("--adjust: slopes are always spread by distance");
  if (kind === "slopes" && reading !== undefined)
    throw new UsageError("--reading is that of a staff, and this is slopes");
  if (kind === "book" && reading !== undefined && reading > MOST_READING_mm)
    throw new UsageError(`--reading ${reading}: a staff is read to ${MOST_READING_mm} mm or better`);
}

const isReceived = (answer: LevelsAnswer): answer is FixesAnswer => "received" in answer;

function wordsOf(answer: LevelsAnswer, asked: Asked, book: Book | Track): string[] {
  return isReceived(answer)
    ? receivedInWords(answer, asked, book.kind === "fixes" ? book.without : 0)
    : levelsInWords(answer, asked);
}

function answerTo(path: string, book: Book | Track, { class: asked, adjust, reading }: LevelsFlags): LevelsAnswer {
  const spread = adjust && { adjust };
  return askedOf(path, book, () => {
    switch (book.kind) {
      case "slopes":
        return levelsOfSlopes(book.rows);
      case "fixes":
        return levelsOfFixes(book.fixes, {
          adjust: adjust === "none" ? "none" : "distance",
          ...(reading !== undefined && { difference_m: reading / 1000 }),
        });
      default:
        return levels(book.rows, {
          ...asked,
          ...spread,
          ...(reading !== undefined && { reading_sd_m: reading / 1000 / NINETEEN_IN_TWENTY }),
        });
    }
  });
}
