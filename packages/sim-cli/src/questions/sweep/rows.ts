import { SWEPT_FIGURES, type SweptCase, type SweptFigure, type Warning } from "@rideon/sim-core";
import { parse } from "csv-parse/sync";
import { AFTER, INVALID, TOLD_IN, UNFINISHED } from "./row.js";
import { warnedIn } from "./warned.js";

/** A row of a sweep, by its columns. */
export interface SweptRow {
  number: number;
  /** Varied keys, as the row sets them. */
  settings: string[];
  figures: SweptCase["figures"];
  outcome: string;
  short: string[];
  /** Of what is needed, what it misses. */
  missed: string[];
  warned: Warning[];
  /** Of figures that have a band, the share of the draws that have the figure at all. */
  told_in: Record<string, number>;
  why: string;
}

/** What the columns of a sweep are. */
export interface Columns {
  all: string[];
  varied: string[];
  figures: SweptFigure[];
}

/** How many warnings its plan has stands in every row, whatever is asked. */
export const WARNINGS: SweptFigure = { name: "warnings", question: "check", better: "less" };

const KNOWN = new Map(SWEPT_FIGURES.map((each) => [each.name, each]));

/** Of the second line of a sweep's file. */
export function columnsIn(line: string): Columns {
  const all = cellsIn(line);
  const first = all.findIndex((name) => KNOWN.has(name));
  return { all, varied: all.slice(1, first), figures: all.flatMap((name) => KNOWN.get(name) ?? []) };
}

export function rowIn(line: string, { all, varied, figures }: Columns): SweptRow {
  const cells = cellsIn(line);
  const at = (name: string) => cells[all.indexOf(name)] ?? "";
  const [outcome, short, , warned, why] = AFTER.map(at) as [string, string, string, string, string];
  return {
    number: Number(cells[0]),
    settings: cells.slice(1, 1 + varied.length),
    figures: Object.fromEntries(
      [...figures, WARNINGS].map((figure) => [figure.name, valueIn(at(figure.name), figure)]),
    ),
    outcome,
    short: short === "" ? [] : short.split(" "),
    missed: [],
    warned: warnedIn(warned),
    told_in: Object.fromEntries(
      figures.flatMap(({ name }) => {
        const cell = at(`${name}${TOLD_IN}`);
        return cell === "" ? [] : [[name, Number(cell)]];
      }),
    ),
    why,
  };
}

const valueIn = (cell: string, { holds, words }: SweptFigure): SweptCase["figures"][string] =>
  cell === "" ? null : holds ? cell === "yes" : words ? cell : Number(cell);

const cellsIn = (line: string): string[] =>
  line.includes('"') ? ((parse(line) as string[][])[0] ?? []) : line.split(",");

/** Is there anything for which it is not to be recommended? */
export const fallsShort = ({ short, missed }: Pick<SweptRow, "short" | "missed">): boolean =>
  short.length > 0 || missed.length > 0;

/** Did it come to its end? */
export const wentWell = ({ outcome }: SweptRow): boolean => outcome === "completed";
/** A figure of a case that came to its end. */
export function figureIn(row: SweptRow | undefined, name: string): number | undefined {
  const value = row && wentWell(row) ? row.figures[name] : undefined;
  return value === null || value === undefined ? undefined : Number(value);
}

/** Was it worked out at all? */
export const wasAsked = ({ outcome }: SweptRow): boolean => outcome !== INVALID && outcome !== UNFINISHED;
