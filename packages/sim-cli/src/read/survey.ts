import { type Book, readBook } from "./book/book.js";
import { addProblem, type Diagnostic } from "./diagnostics.js";
import { isXml, readGpx, type Track } from "./gpx/gpx.js";

/** Larger books are not kept by hand. */
const BOOK_LIMIT_bytes = 1024 * 1024;
/** Some hundred thousand fixes with all that a receiver may write of each. */
export const SURVEY_LIMIT_bytes = 64 * 1024 * 1024;

/** Reads a survey, whichever it is: the text tells a track of a receiver from a book. */
export function readSurvey(file: string, text: string, problems: Diagnostic[]): Book | Track | undefined {
  if (isXml(text)) return readGpx(file, text, problems);
  if (text.length <= BOOK_LIMIT_bytes) return readBook(file, text, problems);
  const message = `it is larger than ${BOOK_LIMIT_bytes / 1024} KB, too large for a book of readings`;
  addProblem(problems, { file, message });
  return undefined;
}
