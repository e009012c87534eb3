import {
  type Band,
  bands,
  brakes,
  type Doubted,
  DRAWS,
  drawnHeadlines,
  figuresOf,
  InputError,
  RunError,
  type Sureness,
  type SweptCase,
  type SweptFigure,
  sweptCase,
} from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";
import { plain } from "../../ground/plain.js";
import { ReadError, UsageError } from "../../read/diagnostics.js";
import { type Files, filesOf, planOf } from "../../work/files.js";
import { foundInBrakes } from "../../work/found.js";
import { cellsOf, columnsOf, type Sweep, setsOfCase } from "./grid.js";
import { readCase } from "./reading.js";
import { warnedCell } from "./warned.js";

/** Beside `completed`, and what ended a working: a case that cannot be used, and one that could not be finished. */
export const INVALID = "invalid";
export const UNFINISHED = "unfinished";

/** Columns that follow the figures. */
export const AFTER = ["outcome", "falls_short", "warnings", "warned", "why"] as const;

const BANDED = ["p05", "p95"] as const;
/** Behind a figure's name: the share of the draws that have it at all, as its question tells it. */
export const TOLD_IN = "_told_in";

/** The first row: a number, the keys, the figures with their units, how it ended. */
export function headOf(sweep: Sweep): string[] {
  const names = figuresOf(sweep.asked).map(({ name }) => name);
  const banded = bandedIn(sweep).flatMap(({ name }) => [...BANDED.map((end) => `${name}_${end}`), `${name}${TOLD_IN}`]);
  return ["case", ...columnsOf(sweep), ...names, ...banded, ...AFTER];
}

/** Figures whose bands are asked for. */
const bandedIn = ({ asked: questions, bands: wanted }: Sweep): SweptFigure[] =>
  wanted ? figuresOf(questions).filter(({ headline }) => headline) : [];

/** The line of a case: a pure function of its number, its sweep and the files. @param index from 0 */
export function lineOf(sweep: Sweep, index: number): string {
  const { told, sure, outcome, why } = asked(sweep, index);
  const banded = bandedIn(sweep).flatMap((figure) => [
    ...BANDED.map((end) => cell(bandOf(sure, figure)?.[end] ?? null)),
    cell(toldInOf(sure, figure)),
  ]);
  return stringify([
    [
      String(index + 1),
      ...cellsOf(sweep, index),
      ...figuresOf(sweep.asked).map(({ name }) => cell(told?.figures[name] ?? null)),
      ...banded,
      outcome,
      told?.short.join(" ") ?? "",
      told ? String(told.warnings.length) : "",
      told ? warnedCell(told.warnings) : "",
      why,
    ],
  ]);
}

/** Six figures are more than any is worth, and the same wherever they are worked out. */
function cell(value: SweptCase["figures"][string]): string {
  if (value === null) return "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "string" ? value : String(Number(value.toPrecision(6)));
}

interface Told {
  /** Null where it could not be asked. */
  told: SweptCase | null;
  sure: Partial<Record<Doubted, Sureness>>;
  outcome: string;
  why: string;
}

function asked(sweep: Sweep, index: number): Told {
  try {
    const files = filesOf(readCase(sweep, setsOfCase(sweep, index)));
    const told = sweptCase(files, sweep.asked, sweep.teeth ? { teeth: sweep.teeth } : {});
    return { told, sure: surenessOf(files, told, sweep), outcome: told.outcome, why: "" };
  } catch (error) {
    const why = whyOf(error);
    return { told: null, sure: {}, outcome: error instanceof RunError ? UNFINISHED : INVALID, why };
  }
}

/** What is wrong with a case is a part of its row. @throws what is a fault of the program */
function whyOf(error: unknown): string {
  if (error instanceof InputError) return error.problems.map(({ path, message }) => `${path}: ${message}`).join("; ");
  if (error instanceof ReadError || error instanceof UsageError || error instanceof RunError)
    return plain(error.message.replaceAll("\n", "; "));
  throw error;
}

const bandOf = (sure: Told["sure"], { question, headline }: SweptFigure): Band | undefined =>
  headline === undefined ? undefined : sure[question as Doubted]?.bands[headline];

/** Of draws that all lack the figure there is no band, and none tells it; null where nothing was drawn. */
function toldInOf(sure: Told["sure"], { question, headline = "" }: SweptFigure): number | null {
  const sureness = sure[question as Doubted];
  return sureness ? (sureness.told_in[headline] ?? 0) : null;
}

/** How sure the answers are whose figures have a band, as the questions themselves have it. */
function surenessOf(files: Files, { teeth }: SweptCase, sweep: Sweep): Told["sure"] {
  const { bands: wanted } = sweep;
  if (!wanted) return {};
  // Whatever has a band is a question whose answer has bands.
  const questions = new Set(bandedIn(sweep).map(({ question }) => question as Doubted));
  return Object.fromEntries(
    [...questions].map((question) => {
      const spread = { count: wanted.draws ?? DRAWS[question], seed: wanted.seed, plain: wanted.draws !== null };
      const found =
        question === "brakes" ? foundInBrakes(brakes(planOf(files))) : question === "gears" && teeth ? { teeth } : {};
      const headlines = drawnHeadlines(files, question, found, spread, 0, spread.count);
      return [question, bands(files, question, found, spread, headlines)];
    }),
  );
}
