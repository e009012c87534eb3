import {
  type Band,
  bands,
  type Doubted,
  DRAWS,
  drawnHeadlines,
  type Found,
  figuresOf,
  InputError,
  limits,
  RunError,
  type Sureness,
  type SweptCase,
  type SweptFigure,
  sweptCase,
} from "@rideon/sim-core";
import { stringify } from "csv-stringify/sync";
import { plain } from "../../ground/plain.js";
import { ReadError, UsageError } from "../../read/diagnostics.js";
import { readPlan } from "../../read/index.js";
import { type Files, filesOf, planOf } from "../../work/files.js";
import { cellsOf, columnsOf, type Sweep, setsOfCase } from "./grid.js";

/** Beside `completed`, and what ended a working: a case that cannot be used, and one that could not be finished. */
export const INVALID = "invalid";
export const UNFINISHED = "unfinished";

/** Columns that follow the figures. */
export const AFTER = ["outcome", "falls_short", "warnings", "why"] as const;

const BANDED = ["p05", "p95"] as const;

/** The first row: a number, the keys, the figures with their units, how it ended. */
export function headOf(sweep: Sweep): string[] {
  const figures = figuresOf(sweep.asked);
  const banded = (sweep.bands ? figures.filter(({ headline }) => headline) : []).flatMap(({ name }) =>
    BANDED.map((end) => `${name}_${end}`),
  );
  return ["case", ...columnsOf(sweep), ...figures.map(({ name }) => name), ...banded, ...AFTER];
}

/** The line of a case: a pure function of its number, its sweep and the files. @param index from 0 */
export function lineOf(sweep: Sweep, index: number): string {
  const figures = figuresOf(sweep.asked);
  const { told, sure, warnings, why } = asked(sweep, index);
  const banded = (sweep.bands ? figures.filter(({ headline }) => headline) : []).flatMap((figure) =>
    BANDED.map((end) => cell(bandOf(sure, figure)?.[end] ?? null)),
  );
  return stringify([
    [
      String(index + 1),
      ...cellsOf(sweep, index),
      ...figures.map(({ name }) => cell(told.figures[name] ?? null)),
      ...banded,
      told.outcome,
      told.short.join(" "),
      warnings === null ? "" : String(warnings),
      why,
    ],
  ]);
}

/** Six figures are more than any is worth, and the same wherever they are worked out. */
const cell = (value: number | boolean | null): string =>
  value === null ? "" : typeof value === "boolean" ? (value ? "yes" : "no") : String(Number(value.toPrecision(6)));

interface Told {
  told: SweptCase;
  sure: Partial<Record<Doubted, Sureness>>;
  warnings: number | null;
  why: string;
}

function asked(sweep: Sweep, index: number): Told {
  try {
    const reading = readPlan(sweep.plan, { sets: setsOfCase(sweep, index) });
    const files = filesOf(reading);
    const told = sweptCase(files, sweep.asked);
    const warnings = planOf(files).notes.warnings.length;
    return { told, sure: sweep.bands ? surenessOf(files, sweep) : {}, warnings, why: "" };
  } catch (error) {
    const outcome = error instanceof RunError ? UNFINISHED : INVALID;
    return { told: { figures: {}, outcome, short: [] }, sure: {}, warnings: null, why: whyOf(error) };
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
  headline === undefined ? undefined : sure[question]?.bands[headline];

/** How sure each question's answer is, as the question itself has it. */
function surenessOf(files: Files, { asked: questions, bands: wanted }: Sweep): Told["sure"] {
  if (!wanted) return {};
  return Object.fromEntries(
    questions.map((question) => {
      const spread = {
        count: wanted.draws ?? DRAWS[question],
        seed: wanted.seed,
        plain: wanted.draws !== null,
      };
      const found = foundFor(files, question);
      return [
        question,
        bands(files, question, found, spread, drawnHeadlines(files, question, found, spread, 0, spread.count)),
      ];
    }),
  );
}

/** Stops are drawn from where they are longest. */
function foundFor(files: Files, question: Doubted): Found {
  if (question !== "brakes" && question !== "limits") return {};
  const { stops, sight_m, passengers } = limits(files);
  return {
    sight_m,
    loaded: passengers,
    hardest_m: [...new Set(stops.flatMap(({ from_m }) => from_m ?? []))],
  };
}
