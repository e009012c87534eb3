import { InputError, type Problem } from "../errors.js";
import { leastSquares } from "../numeric/least-squares.js";
import { studentWithin } from "../numeric/student.js";
import { G_mps2 } from "../parts/constants.js";
import { sound } from "../record/sound.js";
import type { Fitted } from "./fitted.js";

/** A reading of a train that rolls freely: its speed, or where it is, at a time of its run. */
export interface CoastRow {
  run: string;
  /** One way or the other along the same line: two words, whatever they are. */
  direction: string;
  time_s: number;
  speed_mps: number | null;
  /** From where its clock was started. */
  distance_m: number | null;
  /** Of the head where its clock was started, along the line; where the line's profile is to be counted. */
  from_m?: number | null;
}

export interface CoastdownOptions {
  /** Mass that the train accelerates like over the mass that it weighs: wheels, and whatever turns with them. */
  rotating?: number;
  /** Of the drive in mesh at the wheels, N a kilogram of mass: taken off, since the sums count it by itself. */
  drag_Npkg?: number;
  /** The line: rise over distance under the train, its head at a chainage, in the direction that chainages grow. */
  gradient?: (head_m: number, forwards: boolean) => number;
}

export interface CoastdownAnswer {
  /** Rolling resistance; none from one direction alone. */
  fitted: Fitted[];
  /** Row after row: of one figure, 1. */
  correlation: number[][];
  /** Retardation on the level, standing still in the limit, m/s², and its rise with the square of the speed, 1/m. */
  retardation_mps2: number;
  air_pm: number;
  /** Uphill in the first direction. */
  gradient_percent: number | null;
  both_ways: boolean;
  runs: number;
  /** Pairs of runs, one each way, whose spread tells how sure it is; one tells nothing of that. */
  pairs: number;
  /** Could the runs tell the rise with speed from none? */
  air_told: boolean;
  /** Mass that it was taken to accelerate like, over the mass it weighs. */
  rotating: number;
  /** What the fit leaves over, in the unit of what was read. */
  rms: number;
}

/** Runs of one way or the other, in order of time. */
interface Run {
  readonly way: 1 | -1;
  readonly rows: readonly CoastRow[];
  /** What gravity takes of its speed where it has come to, m/s². */
  readonly gravity_mps2: (run_m: number) => number;
}

/** A wheelset of steel under a light car turns as some hundredths of its mass: common practice, no source. */
const ROTATING = 1.05;
/** Fewer readings are no run. */
const LEAST_ROWS = 3;
const STEP_s = 0.05;

/**
 * Rolling resistance from runs that coast, both ways over the same line: what slows it alike both ways is its own, what
 * slows it one way and helps it the other is the gradient and the wind. The intervals come from the spread between pairs of
 * runs, by the jackknife: readings of one run follow one another, and its own left-overs would flatter.
 * @throws InputError with every run that will not do: `coastdown.3`
 */
export function coastdown(rows: readonly CoastRow[], options: CoastdownOptions = {}): CoastdownAnswer {
  const { rotating = ROTATING, drag_Npkg = 0, gradient } = options;
  const problems = [...wrongIn(rows, rotating), ...(gradient ? placeless(rows) : [])];
  if (problems.length > 0) throw new InputError(problems);
  const runs = runsOf(rows, rotating, gradient);
  const ways = [1, -1].map((way) => runs.filter((run) => run.way === way));
  const both_ways = ways.every((each) => each.length > 0);
  const pairs = both_ways ? Math.min(...ways.map(({ length }) => length)) : 0;
  const withAir = fit(runs, both_ways, true);
  const without = fit(runs, both_ways, false);
  const air_told = tellsAir(withAir, without);
  const best = air_told ? withAir : without;
  const coefficient = (a0: number) => (rotating * a0) / G_mps2;
  const dragged = drag_Npkg / G_mps2;
  const off = pairs > 1 ? jackknife(ways, pairs, (some) => fit(some, true, air_told).a0) : Number.NaN;
  const value = coefficient(best.a0) - dragged;
  // One pair says nothing of how unlike the next would be.
  const half = Math.hypot(Number.isNaN(off) ? ONE_PAIR * value : coefficient(off), DRAG * dragged);
  return sound({
    fitted: both_ways
      ? [{ path: "loco.resistance.rolling", value, unit: "", low: value - half, high: value + half }]
      : [],
    correlation: both_ways ? [[1]] : [],
    retardation_mps2: best.a0,
    air_pm: best.a2,
    gradient_percent: both_ways ? (100 * best.slope_mps2) / G_mps2 : null,
    both_ways,
    runs: runs.length,
    pairs,
    air_told,
    rotating,
    rms: best.rms,
  });
}

/** A motor's drag is known to a quarter: common practice, no source. */
const DRAG = 0.25;
/** Common practice, no source: one pair on another day is so much off, nineteen in twenty. */
const ONE_PAIR = 0.2;

interface Fit {
  readonly a0: number;
  readonly a2: number;
  readonly slope_mps2: number;
  readonly squares: number;
  readonly rms: number;
  readonly observations: number;
  readonly parameters: number;
}

/** Of all runs together: one resistance, one gradient, and for each run the speed it began at. */
function fit(runs: readonly Run[], both: boolean, air: boolean): Fit {
  const observations = runs.reduce((sum, { rows }) => sum + rows.length, 0);
  const shared = 1 + (both ? 1 : 0) + (air ? 1 : 0);
  const own = (p: Float64Array) => ({ a0: p[0], slope: both ? p[1] : 0, a2: air ? p[shared - 1] : 0 });
  const start = [0.05, ...(both ? [0] : []), ...(air ? [0.001] : []), ...runs.map(firstSpeed_mps)];
  const residuals = (p: Float64Array, out: Float64Array) => {
    const { a0, slope, a2 } = own(p);
    let at = 0;
    for (const [i, run] of runs.entries()) at = coast(run, p[shared + i], a0 + run.way * slope, a2, out, at);
  };
  const { parameters, sumOfSquares } = leastSquares(residuals, start, observations);
  const { a0, slope, a2 } = own(parameters);
  return {
    a0,
    a2,
    slope_mps2: slope,
    squares: sumOfSquares,
    rms: Math.sqrt(sumOfSquares / observations),
    observations,
    parameters: start.length,
  };
}

/** Computed less read along a run, by the classical Runge-Kutta method. @returns the place after the last */
function coast(
  { rows, gravity_mps2 }: Run,
  v0: number,
  a0: number,
  a2: number,
  out: Float64Array,
  from: number,
): number {
  const begins_m = rows[0].distance_m ?? 0;
  const slows = (v: number, x: number) => (v > 0 ? -(a0 + a2 * v * v) - gravity_mps2(x - begins_m) : 0);
  let [t, v, x, at] = [rows[0].time_s, v0, begins_m, from];
  for (const { time_s, speed_mps, distance_m } of rows) {
    const steps = Math.max(1, Math.ceil((time_s - t) / STEP_s));
    const h = (time_s - t) / steps;
    for (let i = 0; i < steps && h > 0; i++) {
      const k1 = slows(v, x);
      const k2 = slows(v + (h / 2) * k1, x + (h / 2) * v);
      const k3 = slows(v + (h / 2) * k2, x + (h / 2) * (v + (h / 2) * k1));
      const k4 = slows(v + h * k3, x + h * (v + (h / 2) * k2));
      x += h * v + ((h * h) / 6) * (k1 + k2 + k3);
      v += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    }
    t = time_s;
    out[at++] = speed_mps === null ? x - (distance_m as number) : v - speed_mps;
  }
  return at;
}

function firstSpeed_mps({ rows }: Run): number {
  const [first, second] = rows;
  if (first.speed_mps !== null) return first.speed_mps;
  return ((second.distance_m as number) - (first.distance_m as number)) / (second.time_s - first.time_s);
}

/** Nothing is read to this, m/s or m: a fit that leaves no more over wants no further term. */
const UNREAD = 1e-5;

/** Does a rise with speed fit so much better that chance would do so once in a hundred? Fisher's F of one to many. */
function tellsAir(withAir: Fit, without: Fit): boolean {
  const freedom = withAir.observations - withAir.parameters;
  if (freedom < 1 || !(withAir.a2 > 0) || without.rms < UNREAD) return false;
  const t = Math.sqrt(Math.max(0, without.squares - withAir.squares) / (withAir.squares / freedom));
  return t > studentWithin(freedom, 0.99);
}

/** Half-width of nineteen in twenty, leaving out one pair of runs after the other (Quenouille 1956, Tukey 1958). */
function jackknife(ways: readonly (readonly Run[])[], pairs: number, of: (runs: readonly Run[]) => number): number {
  const without = Array.from({ length: pairs }, (_, left) =>
    of(ways.flatMap((way) => way.filter((_, i) => i !== left))),
  );
  const mean = without.reduce((sum, each) => sum + each, 0) / pairs;
  const square = without.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  return studentWithin(pairs - 1) * Math.sqrt((square * (pairs - 1)) / pairs);
}

function runsOf(rows: readonly CoastRow[], rotating: number, gradient: CoastdownOptions["gradient"]): Run[] {
  const [first] = [...new Set(rows.map(({ direction }) => direction))];
  return [...new Set(rows.map(({ run }) => run))].map((name) => {
    const own = rows.filter(({ run }) => run === name);
    const way = own[0].direction === first ? 1 : -1;
    const from_m = own[0].from_m ?? 0;
    const gravity_mps2 = (run_m: number) =>
      gradient ? (way * G_mps2 * gradient(from_m + way * run_m, way > 0)) / rotating : 0;
    return { way, rows: own, gravity_mps2 };
  });
}

/** With a profile every run must tell where it began. */
function placeless(rows: readonly CoastRow[]): Problem[] {
  const begun = new Set<string>();
  return rows.flatMap(({ run, from_m }, i) => {
    const first = !begun.has(run);
    begun.add(run);
    return first && (from_m === null || from_m === undefined)
      ? [
          {
            path: `coastdown.${i + 1}`,
            message: `run ${run}: with a plan's line its first reading tells where it began, in a column from_m: the chainage of the head`,
          },
        ]
      : [];
  });
}

function wrongIn(rows: readonly CoastRow[], rotating: number): Problem[] {
  const problems: Problem[] = [];
  const say = (i: number, message: string) => problems.push({ path: `coastdown.${i + 1}`, message });
  if (!(rotating >= 1 && rotating < 3))
    problems.push({ path: "options.rotating", message: `${rotating} is not from 1 to 3` });
  if (rows.length === 0) problems.push({ path: "coastdown.1", message: "there is no reading" });
  const directions = [...new Set(rows.map(({ direction }) => direction))];
  const last = new Map<string, CoastRow>();
  const counts = new Map<string, number>();
  for (const [i, row] of rows.entries()) {
    const before = last.get(row.run);
    counts.set(row.run, (counts.get(row.run) ?? 0) + 1);
    if (!directions.slice(0, 2).includes(row.direction))
      say(i, `${row.direction} is a third direction; there are two, such as out and back`);
    if (before && before.direction !== row.direction) say(i, `run ${row.run} changes its direction on the way`);
    if (before && row.time_s <= before.time_s) say(i, `run ${row.run}: the time is no later than the one before`);
    if (before && row.distance_m !== null && before.distance_m !== null && row.distance_m <= before.distance_m)
      say(i, `run ${row.run}: the distance is no further than the one before; it is told from where the clock started`);
    if (row.speed_mps !== null && (row.speed_mps < 0 || row.speed_mps > FASTEST_mps))
      say(
        i,
        `a speed of ${row.speed_mps} m/s is none that a train on such a line coasts at; are the units those of the heading?`,
      );
    if (before && before.speed_mps !== null && row.speed_mps !== null && row.speed_mps > before.speed_mps + GAINS_mps)
      say(i, `run ${row.run} gets faster: it is driven, or the line falls too steeply to coast on`);
    last.set(row.run, row);
  }
  for (const [run, count] of counts)
    if (count < LEAST_ROWS)
      say(
        rows.findLastIndex((row) => row.run === run),
        `run ${run} has ${count} readings; three or more are wanted`,
      );
  return problems;
}

const FASTEST_mps = 15;
/** A reading may be off by so much. */
const GAINS_mps = 0.3;
