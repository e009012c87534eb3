import type { Measured } from "./book.js";
import type { Doubtful } from "./doubts.js";
import { type Design, evenDraws, latinHypercube, normalScores, plainDraws } from "./random.js";
import { fitSurrogate, type Row, type Surrogate, sharesOf } from "./surrogate.js";

/** A figure of an answer as its doubt has it: below `p05` lie five draws in a hundred. */
export interface Band {
  p05: number;
  p25: number;
  p50: number;
  p75: number;
  p95: number;
}

/** What one draw came to. */
export interface Headline {
  /** Figures of the answer, the first the one that is asked for; null where this draw has none, absent where it was not looked at. */
  readonly figures: Readonly<Record<string, number | null>>;
  /** What holds while it is not below 0; null where it does not hold at all. */
  readonly margins: Readonly<Record<string, number | null>>;
  /** How it ended, in a word; null where that was not looked at. */
  readonly outcome: string | null;
  /** Steepest gradient, with curves, as this draw's survey has it, %. */
  readonly ruling_percent: number;
}

/** A figure that widens the answer, and what measuring it would do. */
export interface ToMeasureFirst {
  /** Its key, with `*` for every place in a list. */
  path: string;
  /** Share of the variance of the first figure told that it accounts for. */
  share: number;
  how: Measured;
  /** Band of the first figure told, were this one measured: 5 and 95 %. */
  band_then: { p05: number; p95: number } | null;
}

/** How sure an answer is. */
export interface Sureness {
  bands: Record<string, Band>;
  /** Share of the draws that have each figure at all: what runs away has no stopping distance. */
  told_in: Record<string, number>;
  /** Shares of the draws: of each way it ended, and of what holds. */
  chances: Record<string, number>;
  /** Of each chance that is neither rare nor all but sure, the figure that decides it more than others: its path. */
  flipped_by: Record<string, string>;
  measure_first: ToMeasureFirst[];
  /** Draws of the whole simulation. */
  draws: number;
  seed: number;
}

/** How draws are spread: few and well, or plain. */
export interface Spread {
  readonly count: number;
  readonly seed: number;
  readonly plain: boolean;
}

export const designOf = ({ count, seed, plain }: Spread, doubts: readonly Doubtful[]): Design =>
  (plain ? plainDraws : latinHypercube)(count, doubts.length, seed);

/** A surrogate costs nothing: so many draws of it. */
const SURROGATE_DRAWS = 2000;
const MOST_TO_MEASURE = 5;
/** A chance below this, or so near to one, turns on no one figure. */
const RARE = 0.04;
/** The survey stands behind the figures of the files. */
const SURVEY = "track.height";
/** Less of the spread is not worth the walk to the track. */
const LEAST_SHARE = 0.01;

/** Counted in whole ones: laps, passengers. */
const WHOLE = /^(?:laps|passengers)/;

/**
 * Bands, chances and what to measure first, from draws of the whole simulation. Few draws that are well spread are smoothed
 * by a surrogate, of plain ones the quantiles are told as they are (type 7 of Hyndman and Fan).
 * @param results of the design's points, in order; null where a point made no train
 */
export function bandsOf(doubts: readonly Doubtful[], spread: Spread, results: readonly (Headline | null)[]): Sureness {
  const { points, seed } = designOf(spread, doubts);
  const drawn = results.flatMap((headline, i) => (headline ? [{ headline, z: points[i] }] : []));
  const rulings = drawn.map(({ headline }) => headline.ruling_percent);
  const survey = standardised(rulings);
  const columns = columnsOf(doubts);
  const rows = drawn.map(({ z }, i) => columns(z, survey[i]));
  const fresh = freshOf(columns, doubts.length, seed);
  const told = (name: string, from: (headline: Headline) => number | null | undefined): Told | null => {
    const looked = drawn.filter(({ headline }) => from(headline) !== undefined);
    const used = drawn.flatMap(({ headline }, i) => {
      const value = from(headline) ?? null;
      return value === null ? [] : [{ value, row: rows[i] }];
    });
    if (used.length < LEAST_DRAWS) return null;
    const values = used.map(({ value }) => value);
    const rowsUsed = used.map(({ row }) => row);
    const { scale, surrogate } = scalesOf(values, name)
      .map((each) => ({ scale: each, surrogate: fitSurrogate(rowsUsed, values.map(each.into)) }))
      .reduce((a, b) => (b.surrogate.unexplained < a.surrogate.unexplained ? b : a));
    // What the fit does not follow it cannot smooth: then the draws speak for themselves.
    const followed = !spread.plain && surrogate.unexplained < FOLLOWED;
    // A fit knows no floor, such as the least time that the speed allows; the draws have met it.
    const [least, most] = [Math.min(...values), Math.max(...values)];
    const within = (value: number) => Math.min(most, Math.max(least, scale.back(value)));
    const sample = followed ? sampled(surrogate, fresh.rows).map(within) : values;
    return { name, scale, surrogate, sample: [...sample].sort((a, b) => a - b), share: used.length / looked.length };
  };
  const flip = (name: string, surrogate: Surrogate, share: number): [string, string][] => {
    if (share < RARE || share > 1 - RARE) return [];
    const [most] = [...sharesOf(surrogate, fresh.rows)].sort(([, a], [, b]) => b - a);
    return most ? [[name, doubts[most[0]]?.path ?? SURVEY]] : [];
  };
  const figures = namesIn(drawn, "figures").flatMap((name) => told(name, ({ figures: each }) => each[name]) ?? []);
  const margins = namesIn(drawn, "margins").map(
    (name) => [name, told(`${MARGIN}${name}`, ({ margins: each }) => each[name])] as const,
  );
  return {
    bands: Object.fromEntries(figures.map(({ name, sample }) => [name, bandOf(sample, name)])),
    told_in: Object.fromEntries(figures.map(({ name, share }) => [name, share])),
    chances: {
      ...outcomesOf(drawn.flatMap(({ headline }) => headline.outcome ?? [])),
      ...Object.fromEntries(margins.map(([name, each]) => [name, each ? each.share * shareFrom0(each.sample) : 0])),
    },
    flipped_by: Object.fromEntries([
      ...outcomeNames(drawn).flatMap((name) => {
        const looked = drawn.flatMap(({ headline: { outcome } }, i) =>
          outcome === null ? [] : [{ outcome, row: rows[i] }],
        );
        const indicator = looked.map(({ outcome }) => (outcome === name ? 1 : 0));
        const share = indicator.reduce<number>((a, b) => a + b, 0) / looked.length;
        return flip(
          name,
          fitSurrogate(
            looked.map(({ row }) => row),
            indicator,
          ),
          share,
        );
      }),
      ...margins.flatMap(([name, each]) =>
        each ? flip(name, each.surrogate, each.share * shareFrom0(each.sample)) : [],
      ),
    ]),
    measure_first: toMeasure(doubts, figures, fresh),
    draws: drawn.length,
    seed,
  };
}

/** One quantity of the answer. */
interface Told {
  readonly name: string;
  readonly scale: Scale;
  readonly surrogate: Surrogate;
  /** Rising. */
  readonly sample: number[];
  /** Of all draws, those that have it. */
  readonly share: number;
}

const MARGIN = "margin of ";
/** Of the variance, what a fit may leave over and still be one. */
const FOLLOWED = 0.5;

/** How a quantity is fitted, and back. */
interface Scale {
  readonly into: (value: number) => number;
  readonly back: (value: number) => number;
}

/** What is a product of its causes is a sum of their logarithms. Numbers of people may be none, told as -1. */
function scalesOf(values: readonly number[], name: string): Scale[] {
  const shift = WHOLE.test(name) ? 2 : 0;
  const plain: Scale = { into: (value) => value, back: (value) => value };
  if (name.startsWith(MARGIN) || values.some((value) => value + shift <= 0)) return [plain];
  return [{ into: (value) => Math.log(value + shift), back: (value) => Math.exp(value) - shift }, plain];
}

/** Fewer draws tell of no band. */
const LEAST_DRAWS = 8;

/** A row of columns at a point: each figure off its middle, in widths of its own; the survey last. */
type Columns = (z: Row, survey: number) => Float64Array;

function columnsOf(doubts: readonly Doubtful[]): Columns {
  const widths = doubts.map(({ at, middle }) => (at(middle, 1) - at(middle, -1)) / 2 || 1);
  return (z, survey) =>
    Float64Array.from({ length: doubts.length + 1 }, (_, j) => {
      if (j === doubts.length) return survey;
      const { at, middle } = doubts[j];
      return (at(middle, z[j]) - middle) / widths[j];
    });
}

/** Points for the surrogate. */
interface Fresh {
  readonly rows: readonly Float64Array[];
  /** The same with one figure so many times as wide in doubt. */
  readonly narrowed: (j: number, times: number) => readonly Float64Array[];
}

function freshOf(columns: Columns, figures: number, seed: number): Fresh {
  const points = normalScores(SURROGATE_DRAWS, figures + 1, seed + 1);
  const rowOf = (z: Float64Array) => columns(z, z[figures]);
  const rows = points.map(rowOf);
  return {
    rows,
    narrowed: (j, times) =>
      points.map((z, i) => {
        const row = rows[i].slice();
        const nearer = z.slice();
        nearer[j] *= times;
        row[j] = rowOf(nearer)[j];
        return row;
      }),
  };
}

function sampled({ at, residuals }: Surrogate, rows: readonly Row[]): number[] {
  const even = evenDraws(SURROGATE_DRAWS);
  return rows.map((row) => at(row) + (residuals[Math.floor(even() * residuals.length)] ?? 0));
}

function toMeasure(doubts: readonly Doubtful[], figures: readonly Told[], fresh: Fresh): ToMeasureFirst[] {
  const [first] = figures;
  if (!first) return [];
  const shares = sharesOf(first.surrogate, fresh.rows);
  const all = [...doubts, { path: SURVEY, measured: { how: "levels", times: 0.5 } } as const];
  return all
    .flatMap(({ path, measured }, j) => {
      if (!measured) return [];
      const share = shares.get(j) ?? 0;
      return share < LEAST_SHARE ? [] : [{ path, j, share, measured }];
    })
    .sort((a, b) => b.share - a.share)
    .slice(0, MOST_TO_MEASURE)
    .map(({ path, j, share, measured: { how, times } }) => {
      const then = sampled(first.surrogate, fresh.narrowed(j, times))
        .map(first.scale.back)
        .sort((a, b) => a - b);
      const { p05, p95 } = bandOf(then, first.name);
      return { path, share, how, band_then: { p05, p95 } };
    });
}

function bandOf(rising: readonly number[], name: string): Band {
  const at = (share: number) => counted(quantileOf(rising, share), name);
  return { p05: at(0.05), p25: at(0.25), p50: at(0.5), p75: at(0.75), p95: at(0.95) };
}

/** Laps come with the part that is left over, and only whole ones are run; passengers are whole, but for the smoothing. */
function counted(value: number, name: string): number {
  if (!WHOLE.test(name)) return value;
  return name.startsWith("laps") ? Math.max(0, Math.floor(value + 1e-9)) : Math.round(value);
}

/** Type 7 of Hyndman and Fan, as most programs have it. @param rising sorted */
export function quantileOf(rising: readonly number[], share: number): number {
  const place = share * (rising.length - 1);
  const below = Math.floor(place);
  const [low, high] = [rising[below], rising[Math.min(rising.length - 1, below + 1)]];
  return low + (place - below) * (high - low);
}

const shareFrom0 = (rising: readonly number[]): number =>
  rising.filter((value) => value >= 0).length / Math.max(1, rising.length);

/** What was looked at in any draw, in the order of the first that has it. */
const namesIn = (drawn: readonly { headline: Headline }[], of: "figures" | "margins"): string[] => [
  ...new Set(drawn.flatMap(({ headline }) => Object.keys(headline[of]))),
];

const outcomeNames = (drawn: readonly { headline: Headline }[]): string[] => [
  ...new Set(drawn.flatMap(({ headline }) => headline.outcome ?? [])),
];

function outcomesOf(outcomes: readonly string[]): Record<string, number> {
  const shares: Record<string, number> = {};
  for (const each of outcomes) shares[each] = (shares[each] ?? 0) + 1 / outcomes.length;
  return shares;
}

/** In standard deviations from the mean; 0 where nothing moves. */
function standardised(values: readonly number[]): number[] {
  const mean = values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length));
  return values.map((value) => (sd > 0 ? (value - mean) / sd : 0));
}
