import { lackIn, type SweptCase } from "@rideon/sim-core";
import { type PlacedWarning, placed } from "../../words/warnings.js";
import type { Cases } from "./cases.js";
import type { Found } from "./found.js";
import { kindTold, lackTold, misses } from "./lacks.js";
import type { SweptRow } from "./rows.js";

/** What every plan of the sweep warns of, each once. */
export const warningsOf = ({ warned }: Found): PlacedWarning[] =>
  [...warned.values()].map((warning) => placed(warning, undefined));

/** The answer as JSON has it. */
export function documentOf(found: Found, count: number): Record<string, unknown> {
  const { rows, outcomes, best, ties, wanted, short, kept, lacks, warned, rarely, needs } = found;
  const inFull = (row: SweptRow) => rowOf(row, found);
  return {
    cases: count,
    done: rows,
    outcomes,
    falls_short: short,
    best_by: wanted.best.name,
    better: wanted.best.better,
    need: wanted.needs.map(({ text }) => text),
    needs: wanted.needs.map(({ text }, i) => ({
      need: text,
      met: needs[i]?.met ?? 0,
      nearest: needs[i]?.nearest?.number ?? null,
    })),
    best: best.map(inFull),
    ties,
    lacks: [...lacks].map(([lack, cases]) => ({ lack, message: kindTold(lack), ...numbersOf(cases) })),
    warned: [...warned.values()].map(({ code, path, messages, cases }) => ({
      code,
      path,
      messages,
      ...numbersOf(cases),
    })),
    bands_of_some_draws: [...rarely].map(([figure, { cases, least }]) => ({ figure, least, ...numbersOf(cases) })),
    rows: kept.map(inFull),
    rows_left_out: rows - kept.length,
  };
}

interface RowInFull {
  case: number;
  settings: Record<string, string>;
  figures: SweptCase["figures"];
  /** Of figures that have a band, the share of the draws that have the figure; only where bands were asked for. */
  told_in?: Record<string, number>;
  outcome: string;
  falls_short: { lack: string; by: number | null; message: string }[];
  /** Codes. */
  warnings: string[];
  why: string | null;
}

const rowOf = (row: SweptRow, { columns }: Found): RowInFull => ({
  case: row.number,
  settings: Object.fromEntries(columns.varied.map((key, i) => [key, row.settings[i] ?? ""])),
  figures: row.figures,
  ...(Object.keys(row.told_in).length > 0 && { told_in: row.told_in }),
  outcome: row.outcome,
  falls_short: [
    ...row.short.map((lack) => ({ ...lackIn(lack), message: lackTold(lack) })),
    ...row.missed.map((need) => ({ lack: "need", by: null, message: misses(need) })),
  ],
  warnings: row.warned.map(({ code }) => code),
  why: row.why === "" ? null : row.why,
});

/** How many, and the first of them as runs of neighbours. */
const numbersOf = ({ count, runs }: Cases) => ({ cases: count, first: runs });
