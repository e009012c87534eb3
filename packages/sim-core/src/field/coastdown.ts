import { InputError } from "../errors.js";
import { G_mps2 } from "../parts/constants.js";
import { sound } from "../record/sound.js";
import { type CoastDoubts, coastDoubts, TURNING } from "./coast.doubt.js";
import { type Fit, fit, jackknife, tellsAir } from "./coast.fit.js";
import { type CoastLine, lineFor } from "./coast.line.js";
import { type CoastRow, type Run, runsOf } from "./coast.run.js";
import { wrongIn } from "./coast.wrong.js";
import type { Fitted } from "./fitted.js";

export type { CoastDoubts } from "./coast.doubt.js";
export type { CoastLine } from "./coast.line.js";
export type { CoastRow } from "./coast.run.js";

export interface CoastdownOptions {
  /** Mass that the train accelerates like over the mass that it weighs: wheels, and whatever turns with them. */
  rotating?: number;
  /** By how much of itself that may be off, nineteen in twenty: not at all where it is told. */
  rotating_doubt?: number;
  /** Of the drive in mesh at the wheels, N a kilogram of mass: taken off, since the sums count it by itself. */
  drag_Npkg?: number;
  /** The line; its profile is counted where the readings tell their places. */
  line?: CoastLine;
  /** As the plan has it: retardation with the square of the speed, 1/m, and by how much of itself that may be off. */
  air?: { pm: number; doubt: number };
}

export interface CoastdownAnswer {
  /** Rolling resistance; none from one direction alone, or where something does not fit. */
  fitted: Fitted[];
  /** Row after row: of one figure, 1. */
  correlation: number[][];
  /** Why runs both ways tell no figure: their air is not the plan's, or the ways differ by more than a slope can. */
  unfit: "air" | "ways" | null;
  /** What the figure's doubt is made of; null from one direction alone. */
  doubts: CoastDoubts | null;
  /** Retardation on the level, standing still in the limit, m/s², and its rise with the square of the speed, 1/m. */
  retardation_mps2: number;
  air_pm: number;
  /** Uphill in the first direction. */
  gradient_percent: number | null;
  both_ways: boolean;
  /** Was a profile counted? */
  profiled: boolean;
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

/**
 * Rolling resistance from runs that coast, both ways over the same line: what slows it alike both ways is its own, what
 * slows it one way and helps it the other is the gradient and the wind: k dv/dt = -(g C ± g s + a v²), k for what turns. The
 * spread between pairs of runs is told by the jackknife: readings of one run follow one another, and its own left-overs would
 * flatter. What all runs have in common is counted besides.
 * @throws InputError with every run that will not do: `coastdown.3`
 */
export function coastdown(rows: readonly CoastRow[], options: CoastdownOptions = {}): CoastdownAnswer {
  const { rotating = TURNING.factor, drag_Npkg = 0, air } = options;
  const problems = wrongIn(rows, rotating);
  const counted = lineFor(rows, options.line, problems);
  if (problems.length > 0) throw new InputError(problems);
  const runs = runsOf(rows, rotating, counted.gradient);
  const ways = [1, -1].map((way) => runs.filter((run) => run.way === way));
  const both_ways = ways.every((each) => each.length > 0);
  const pairs = both_ways ? Math.min(...ways.map(({ length }) => length)) : 0;
  const withAir = fit(runs, { both: both_ways, air: true });
  const without = fit(runs, { both: both_ways, air: false });
  const air_told = tellsAir(withAir, without);
  const best = air_told ? withAir : without;
  const dragged = drag_Npkg / G_mps2;
  const spread = (of: (found: Fit) => number) =>
    pairs > 1 ? jackknife(ways, pairs, (some) => of(fit(some, { both: true, air: air_told }))) : Number.NaN;
  const doubts = both_ways
    ? coastDoubts(runs, best, {
        rotating,
        turning: options.rotating_doubt ?? (options.rotating === undefined ? TURNING.doubt : 0),
        dragged,
        slope: counted.doubt,
        air_pm: air?.pm,
        pairs_mps2: spread(({ a0 }) => a0),
        air_told,
      })
    : null;
  const strange =
    air_told &&
    air !== undefined &&
    isStrange(
      best.a2,
      spread(({ a2 }) => a2),
      air,
    );
  const unfit = !both_ways ? null : strange ? "air" : areUnlike(ways, pairs, rows) ? "ways" : null;
  const value = (rotating * best.a0) / G_mps2 - dragged;
  const half = doubts === null ? Number.NaN : Math.hypot(...Object.values(doubts));
  const fitted =
    both_ways && unfit === null
      ? [{ path: "loco.resistance.rolling", value, unit: "", low: value - half, high: value + half }]
      : [];
  return sound({
    fitted,
    correlation: fitted.map(() => [1]),
    unfit,
    doubts,
    retardation_mps2: best.a0,
    air_pm: best.a2,
    gradient_percent: both_ways ? (100 * rotating * best.slope_mps2) / G_mps2 : null,
    both_ways,
    profiled: counted.gradient !== undefined,
    runs: runs.length,
    pairs,
    air_told,
    rotating,
    rms: best.rms,
  });
}

/** One pair tells its air to a half of it: common practice, no source. */
const ONE_PAIR_AIR = 0.5;

/** Is it further from the plan's than both leave open? */
function isStrange(found_pm: number, half_pm: number, { pm, doubt }: { pm: number; doubt: number }): boolean {
  const own_pm = Number.isNaN(half_pm) ? ONE_PAIR_AIR * found_pm : half_pm;
  return Math.abs(found_pm - pm) > own_pm + doubt * pm;
}

/** A slope that seems to change by less than this along a run makes no difference to speak of. */
const STEADY = 1 / 1000;

/**
 * Do the ways differ by more than a slope can? What a slope takes is the same at every speed. What grows with speed one way and
 * not the other is a wind, a line that bends, or two lines; asked of the pairs, chance says so once in a hundred.
 */
function areUnlike(ways: readonly (readonly Run[])[], pairs: number, rows: readonly CoastRow[]): boolean {
  if (pairs < 2) return false;
  const speeds_mps = rows.flatMap(({ speed_mps }) => speed_mps ?? []);
  if (speeds_mps.length === 0) return false;
  const own_pm = (some: readonly Run[]) => fit(some, { both: false, air: true }).a2;
  const of = (some: readonly Run[]) =>
    (own_pm(some.filter(({ way }) => way > 0)) - own_pm(some.filter(({ way }) => way < 0))) / 2;
  const found_pm = of(ways.flat());
  const fastest_mps = speeds_mps.reduce((a, b) => Math.max(a, b));
  if (Math.abs(found_pm) * fastest_mps ** 2 < STEADY * G_mps2) return false;
  return Math.abs(found_pm) > jackknife(ways, pairs, of, 0.99);
}
