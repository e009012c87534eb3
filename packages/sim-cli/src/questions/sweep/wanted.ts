import { figures, nearest, SWEPT_FIGURES, type Swept, type SweptFigure } from "@rideon/sim-core";
import { UsageError } from "../../read/diagnostics.js";
import type { Columns, SweptRow } from "./rows.js";
import { figureIn, WARNINGS } from "./rows.js";

/** What a case must be to be among the best. */
export interface Need {
  text: string;
  /** The figure or the key that it is about. */
  name: string;
  holds(row: SweptRow): boolean;
  /** How far a case is from it; nothing where it is no matter of more or less, or the case has no such figure. */
  off(row: SweptRow): number | undefined;
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
  { question: "gears", name: "chosen_restart_gradient_percent" },
  { question: "size", name: "motor_continuous_power_W" },
  { question: "parts", name: "least_part_margin" },
  { question: "shafts", name: "axle_least_diameter_m" },
  { question: "wiring", name: "battery_cable_drop_percent" },
  { question: "check", name: "pull_at_current_limit_N" },
];

/** @throws UsageError */
export function wantedOf(columns: Columns, best: string | undefined, needs: readonly string[]): Wanted {
  const usual = FIRST.find(({ question }) => columns.figures.some((each) => each.question === question));
  const by = figureNamed(best ?? usual?.name, columns);
  if (by?.better === null)
    throw new UsageError(`--best ${by.name}: neither more nor less of it is better; --need ${by.name}=… asks for one`);
  if (!by) throw new UsageError(`--best ${best}: ${unknown(best ?? "", columns)}`);
  return { best: by, needs: needs.map((text) => needOf(text, columns)) };
}

const figureNamed = (name: string | undefined, { figures }: Columns): SweptFigure | undefined =>
  [...figures, WARNINGS].find((each) => each.name === name);

/** A lack of the gears that the plan has is none of those that would be chosen in their place, and the other way about. */
export function counts(lack: string, { best }: Wanted): boolean {
  const { gearing } = SWEPT_FIGURES.find(({ name }) => name === lack) ?? {};
  return gearing === undefined || best.gearing === undefined || gearing === best.gearing;
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
  const figure = figureNamed(name, columns);
  const key = columns.varied.indexOf(name);
  if (!figure && key < 0) throw new UsageError(`--need ${text}: ${unknown(name, columns)}`);
  const number = Number(wanted);
  if (figure?.words && sign !== "=")
    throw new UsageError(`--need ${text}: ${name} is told in words: ${name}=… asks for one`);
  if (figure?.holds && !(sign === "=" && /^(?:yes|no)$/.test(wanted)))
    throw new UsageError(`--need ${text}: ${name} holds or does not: ${name}=yes or ${name}=no`);
  if (!figure?.holds && sign !== "=" && Number.isNaN(number))
    throw new UsageError(`--need ${text}: ${wanted} is not a number; units stand in the figure's name`);
  if (figure && !figure.holds && !figure.words && Number.isNaN(number))
    throw new UsageError(`--need ${text}: ${wanted} is not a number; units stand in the figure's name`);
  const valueIn = (row: SweptRow) => (figure ? row.figures[name] : row.settings[key]);
  return {
    text: `${name}${sign}${wanted}`,
    name,
    off(row) {
      const value = valueIn(row);
      return typeof value === "number" && !Number.isNaN(number) ? Math.abs(value - number) : undefined;
    },
    holds(row) {
      const value = valueIn(row);
      if (value === null || value === undefined || value === "") return false;
      if (figure?.holds) return value === (wanted === "yes");
      if (figure?.words) return value === wanted;
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

/** The better first: what misses a need after all that do not, and then what falls short of anything, whatever its figure. */
export function before(a: SweptRow, b: SweptRow, wanted: Wanted): number {
  return rank(a) - rank(b) || byFigure(a, b, wanted) || a.number - b.number;
}

/** Is one as good as the other, as far as their figures are told? */
export const tied = (a: SweptRow, b: SweptRow, { best }: Wanted): boolean =>
  rank(a) === rank(b) && figures(figureIn(a, best.name) ?? 0) === figures(figureIn(b, best.name) ?? 0);

const rank = ({ missed, short }: SweptRow): number => 2 * missed.length + Number(short.length > 0);

function byFigure(a: SweptRow, b: SweptRow, { best }: Wanted): number {
  const [x, y] = [figureIn(a, best.name) ?? 0, figureIn(b, best.name) ?? 0];
  return (best.better === "more" ? -1 : 1) * (x - y);
}
