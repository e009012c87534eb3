import { nearest, SWEPT_FIGURES, type Swept, type SweptFigure } from "@rideon/sim-core";
import { UsageError } from "../../read/diagnostics.js";
import type { Columns, SweptRow } from "./rows.js";
import { figureIn } from "./rows.js";

/** What a case must be to be among the best. */
export interface Need {
  text: string;
  holds(row: SweptRow): boolean;
}

/** What the best are the best by, and what they must be. */
export interface Wanted {
  best: SweptFigure;
  needs: readonly Need[];
}

/** Of each question, what it is asked for most; the one that people act on before the others. */
const FIRST: readonly { question: Swept; name: string }[] = [
  { question: "limits", name: "most_aboard" },
  { question: "laps", name: "laps_to_reserve" },
  { question: "climb", name: "passengers_it_can_restart" },
  { question: "brakes", name: "stops_m" },
  { question: "run", name: "energy_Wh" },
];

/** @throws UsageError */
export function wantedOf(columns: Columns, best: string | undefined, needs: readonly string[]): Wanted {
  const usual = FIRST.find(({ question }) => columns.figures.some((each) => each.question === question));
  const by = columns.figures.find(({ name }) => name === (best ?? usual?.name));
  if (!by) throw new UsageError(`--best ${best}: ${unknown(best ?? "", columns)}`);
  return { best: by, needs: needs.map((text) => needOf(text, columns)) };
}

function unknown(name: string, { figures }: Columns): string {
  const elsewhere = SWEPT_FIGURES.find((each) => each.name === name);
  if (elsewhere) return `that is a figure of ${elsewhere.question}, which is not asked here; ask it with --ask`;
  const names = figures.map((each) => each.name);
  const near = nearest(name, names);
  return `there is no such figure${near ? `; did you mean ${near}?` : `; there are ${names.join(", ")}`}`;
}

const NEED = /^\s*([A-Za-z_][\w.]*)\s*(<=|>=|=|<|>)\s*(.+?)\s*$/;

function needOf(text: string, columns: Columns): Need {
  const [, name = "", sign = "", wanted = ""] = NEED.exec(text) ?? [];
  if (name === "")
    throw new UsageError(`--need ${text}: a figure, a sign and a value are wanted, such as restarts=yes or stops_m<20`);
  const figure = columns.figures.find((each) => each.name === name);
  const key = columns.varied.indexOf(name);
  if (!figure && key < 0) throw new UsageError(`--need ${text}: ${unknown(name, columns)}`);
  const number = Number(wanted);
  if (figure?.holds && !(sign === "=" && /^(?:yes|no)$/.test(wanted)))
    throw new UsageError(`--need ${text}: ${name} holds or does not: ${name}=yes or ${name}=no`);
  if (!figure?.holds && sign !== "=" && Number.isNaN(number))
    throw new UsageError(`--need ${text}: ${wanted} is not a number; units stand in the figure's name`);
  if (figure && !figure.holds && Number.isNaN(number))
    throw new UsageError(`--need ${text}: ${wanted} is not a number; units stand in the figure's name`);
  return {
    text: `${name}${sign}${wanted}`,
    holds(row) {
      const value = figure ? row.figures[name] : row.settings[key];
      if (value === null || value === undefined || value === "") return false;
      if (figure?.holds) return value === (wanted === "yes");
      if (sign === "=") return Number.isNaN(number) ? value === wanted : Number(value) === number;
      return COMPARES[sign as keyof typeof COMPARES](Number(value), number);
    },
  };
}

const COMPARES = {
  "<": (a: number, b: number) => a < b,
  ">": (a: number, b: number) => a > b,
  "<=": (a: number, b: number) => a <= b,
  ">=": (a: number, b: number) => a >= b,
} as const;

/** The figure that counts; nothing where a case does not come to its end, or lacks what it needs. */
export function counted(row: SweptRow, { best, needs }: Wanted): number | undefined {
  return needs.every((need) => need.holds(row)) ? figureIn(row, best.name) : undefined;
}

/** The better first; one that falls short of anything only after all that do not, whatever its figure. */
export function before(a: SweptRow, b: SweptRow, wanted: Wanted): number {
  const [x, y] = [counted(a, wanted) ?? 0, counted(b, wanted) ?? 0];
  const sign = wanted.best.better === "more" ? -1 : 1;
  return Number(a.short.length > 0) - Number(b.short.length > 0) || sign * (x - y) || a.number - b.number;
}
