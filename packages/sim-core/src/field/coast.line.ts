import type { Problem } from "../errors.js";
import { formatGradient } from "../units/format.js";
import type { CoastRow, GradientUnder } from "./coast.run.js";
import { placeless } from "./coast.wrong.js";

/** The line that a plan has its train on. */
export interface CoastLine {
  gradient: GradientUnder;
  length_m: number;
  /** By how much a gradient under the train may be off as surveyed, a share, nineteen in twenty. */
  doubt?: number;
}

/** A line that differs no more than this from place to place is even: a tenth of what good bearings hold back. */
const EVEN = 1 / 1000;
const PLACES = 500;

/** What is counted of the line: its profile where places are told, or how far from even it is. */
export interface Counted {
  readonly gradient?: GradientUnder;
  /** Of rolling resistance, a share; undefined where nothing is known. */
  readonly doubt?: number;
}

const isPlaced = ({ from_m }: CoastRow): boolean => from_m !== null && from_m !== undefined;

/** Without places no profile can be counted, and no answer stands unless all the line is even. */
export function lineFor(rows: readonly CoastRow[], line: CoastLine | undefined, problems: Problem[]): Counted {
  if (!line) return {};
  if (rows.some(isPlaced)) {
    problems.push(...placeless(rows, line.length_m));
    // Two places of the survey err apart, and half of what they differ by comes to be rolling.
    return { gradient: line.gradient, doubt: Math.SQRT1_2 * (line.doubt ?? 0) };
  }
  const slopes = Array.from({ length: PLACES }, (_, i) => line.gradient((i / (PLACES - 1)) * line.length_m, true));
  const [least, most] = [slopes.reduce((a, b) => Math.min(a, b)), slopes.reduce((a, b) => Math.max(a, b))];
  if (most - least <= EVEN) return { doubt: (most - least) / 2 };
  const told = (slope: number) =>
    Math.abs(slope) < 1e-4 ? "level" : `${formatGradient(Math.abs(slope))} ${slope > 0 ? "up" : "down"}`;
  problems.push({
    path: "coastdown.1",
    message: `the plan's line is not even: under this train it goes from ${told(least)} to ${told(most)}, and the sums must know where each run was. Tell in a column from_m, in its first reading, the chainage of the head where its clock was started`,
  });
  return {};
}
