import { mean } from "simple-statistics";
import { InputError, type Problem } from "../errors.js";
import { studentWithin } from "../numeric/student.js";
import { G_mps2 } from "../parts/constants.js";
import { sound } from "../record/sound.js";
import type { Fitted } from "./fitted.js";

/** One pull by spring balance, past one place, steadily or until it moved. */
export interface PullRow {
  /** One way or the other over the same place: two words, whatever they are. */
  direction: string;
  steady_N: number | null;
  starting_N: number | null;
}

export interface PullOptions {
  /** Of what was pulled, with all that sat on it. */
  mass_kg: number;
  /** How far off the balance itself may be, a share, nineteen in twenty. */
  balance?: number;
  /** Of the drive in mesh, as the sums count it, at the wheels, N: taken off, since they count it by itself. */
  drag_N?: number;
}

export interface PullAnswer {
  fitted: Fitted[];
  /** Row after row: the balance's own error is in both. */
  correlation: number[][];
  /** What pulls are off their way's mean, N. */
  rms: number;
  /** Steady pull each way, in the mean, N. */
  ways: { direction: string; steady_N: number | null; starting_N: number | null; pulls: number }[];
  rolling_N: number | null;
  /** Of the drive in mesh, taken off, N. */
  drag_N: number;
  /** Of the place, uphill in the first direction. */
  gradient_percent: number | null;
  /** One way alone tells rolling and the gradient together, and neither by itself. */
  both_ways: boolean;
}

/** A spring balance is marked to some hundredths of its range: common practice, no source. */
const BALANCE = 0.03;
/** Of a single pull each way nothing tells how much one differs from the next: so much, one standard deviation. */
const ONE_PULL = 0.05;

/**
 * Rolling and breakaway from pulls both ways over the same place: half the sum is what it takes to roll, half the difference
 * is the gradient. The spread between pulls tells how sure that is, the balance's own error is counted besides.
 * @throws InputError
 */
export function pull(rows: readonly PullRow[], { mass_kg, balance = BALANCE, drag_N = 0 }: PullOptions): PullAnswer {
  const problems = wrongIn(rows, mass_kg);
  if (problems.length > 0) throw new InputError(problems);
  const directions = [...new Set(rows.map(({ direction }) => direction))];
  const weight_N = mass_kg * G_mps2;
  const ways = directions.map((direction) => {
    const own = rows.filter((row) => row.direction === direction);
    return { direction, steady: numbers(own, "steady_N"), starting: numbers(own, "starting_N"), pulls: own.length };
  });
  const [out, back] = ways;
  const rolling = back ? half(out.steady, back.steady, balance) : null;
  const starting = back ? half(out.starting, back.starting, balance) : null;
  const fit = (path: string, found: Half | null): Fitted[] =>
    found === null
      ? []
      : [
          {
            path,
            value: (found.middle - drag_N) / weight_N,
            unit: "",
            low: (found.middle - drag_N - doubtWith(found, drag_N)) / weight_N,
            high: (found.middle - drag_N + doubtWith(found, drag_N)) / weight_N,
          },
        ];
  return sound({
    fitted: [...fit("loco.resistance.rolling", rolling), ...fit("loco.resistance.breakaway", starting)],
    correlation: correlationOf(
      [rolling, starting].filter((each) => each !== null),
      balance,
      drag_N,
    ),
    rms: rmsOf(ways.flatMap(({ steady, starting: each }) => [steady, each])),
    ways: ways.map(({ direction, steady, starting: each, pulls }) => ({
      direction,
      steady_N: steady.length > 0 ? mean(steady) : null,
      starting_N: each.length > 0 ? mean(each) : null,
      pulls,
    })),
    rolling_N: rolling?.middle ?? null,
    drag_N,
    gradient_percent: rolling && back ? (100 * (mean(out.steady) - mean(back.steady))) / (2 * weight_N) : null,
    both_ways: back !== undefined,
  });
}

function wrongIn(rows: readonly PullRow[], mass_kg: number): Problem[] {
  const problems: Problem[] = [];
  const directions = [...new Set(rows.map(({ direction }) => direction))];
  if (!(mass_kg > 0)) problems.push({ path: "options.mass_kg", message: `${mass_kg} is not a mass above 0` });
  if (rows.length === 0) problems.push({ path: "pull.1", message: "there is no pull" });
  for (const [i, { direction, steady_N, starting_N }] of rows.entries()) {
    const at = `pull.${i + 1}`;
    if (!directions.slice(0, 2).includes(direction))
      problems.push({ path: at, message: `${direction} is a third direction; there are two, such as out and back` });
    if (steady_N === null && starting_N === null)
      problems.push({ path: at, message: "neither a steady nor a starting pull is filled in" });
    if (starting_N !== null && steady_N !== null && starting_N < steady_N)
      problems.push({
        path: at,
        message: "it takes less to start than to keep rolling; are the columns the wrong way round?",
      });
  }
  return problems;
}

/** Half the sum of both ways, and how far off it may be. */
interface Half {
  readonly middle: number;
  readonly off: number;
}

function half(out: readonly number[], back: readonly number[], balance: number): Half | null {
  if (out.length === 0 || back.length === 0) return null;
  const middle = (mean(out) + mean(back)) / 2;
  const ways = [out, back];
  const freedom = ways.reduce((sum, each) => sum + each.length - 1, 0);
  const square = ways.reduce((sum, each) => sum + each.reduce((all, value) => all + (value - mean(each)) ** 2, 0), 0);
  // Pulls both ways are as unlike each other: their spreads are one.
  const variance = freedom > 0 ? square / freedom : (ONE_PULL * Math.max(mean(out), mean(back))) ** 2;
  const error = Math.sqrt(variance * (1 / out.length + 1 / back.length)) / 2;
  const times = freedom > 0 ? studentWithin(freedom) : 2;
  return { middle, off: Math.hypot(times * error, balance * Math.abs(middle)) };
}

/** What is taken off is in doubt as well: a motor's drag is known to a quarter (common practice, no source). */
const doubtWith = ({ off }: Half, drag_N: number): number => Math.hypot(off, DRAG * drag_N);
const DRAG = 0.25;

/** What a balance reads wrongly it reads wrongly in both, and the drag is taken off both. */
const correlationOf = (found: readonly Half[], balance: number, drag_N: number): number[][] =>
  found.map((a, i) =>
    found.map((b, j) =>
      i === j
        ? 1
        : (balance ** 2 * a.middle * b.middle + (DRAG * drag_N) ** 2) / (doubtWith(a, drag_N) * doubtWith(b, drag_N)),
    ),
  );

function rmsOf(groups: readonly (readonly number[])[]): number {
  const off = groups.flatMap((group) => group.map((value) => value - mean(group)));
  return off.length > 0 ? Math.sqrt(mean(off.map((each) => each * each))) : 0;
}

const numbers = (rows: readonly PullRow[], of: "steady_N" | "starting_N"): number[] =>
  rows.flatMap((row) => row[of] ?? []);
