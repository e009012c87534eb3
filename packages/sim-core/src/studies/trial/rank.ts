import { type Book, type Chapter, narrowed } from "./book.js";
import type { CauseName, SizeUnit } from "./causes.kinds.js";
import { type Evidence, evidenceFor } from "./evidence.js";
import { type Along, along, atSizes, logNoneOfThese, predictionAt, type Read } from "./likelihood.js";
import type { Prediction } from "./predict.js";

/** A cause as what was read makes it likely. */
export interface RankedCause {
  cause: CauseName;
  probability: number;
  /** The likeliest of its ways; "" where it has one. */
  where: string;
  /** All its ways, the likeliest first, each with its part of the probability. */
  ways: { where: string; probability: number }[];
  /** What fits best, and between what nine in ten of the likelihood lie; null where there is nothing to fit. */
  size: number | null;
  size_low: number | null;
  size_high: number | null;
  size_unit: SizeUnit;
  /** The readings that speak for it most, against a sound machine. */
  evidence: Evidence[];
  /** The readings that speak most for the likeliest cause instead. */
  against: Evidence[];
}

/** One way of a cause, at the size that fits best. */
export interface FittedWay {
  readonly cause: CauseName;
  readonly where: string;
  readonly probability: number;
  readonly size: number;
  readonly chapter: Chapter;
}

/** Causes, the likeliest first; and their ways one by one. */
export interface Ranking {
  readonly causes: RankedCause[];
  readonly ways: FittedWay[];
}

/**
 * How likely each cause is before anything is read, in proportion: 1 where it is not told. That nothing is wrong is as
 * likely as all the rest together, unless told.
 */
export type Priors = Partial<Record<CauseName, number>>;

/**
 * Ranks the causes by what was read: prior times likelihood, the latter a mean over each cause's range of sizes.
 * @param outside how many of the readings lie where one sound loco in twenty reads; several forbid that nothing is wrong,
 * and what spoke for that speaks for none of these
 */
export function rank(book: Book, read: readonly Read[], priors: Priors = {}, outside = 0): Ranking {
  const small = narrowed(
    book,
    read.map(({ at }) => at),
  );
  const own = read.map(({ value }, at) => ({ at, value }));
  const tried = small.chapters.map((chapter) => atSizes(small, chapter, own));
  const closest = Math.max(...tried.flat());
  const prior = priorsOf(book, priors);
  const ways = book.chapters.map((chapter, i) => {
    const found = along(small, small.chapters[i], own, tried[i], closest);
    return { chapter, small: small.chapters[i], found, log: prior(chapter) + found.log };
  });
  let unknown_log = prior() + logNoneOfThese(small, own);
  if (isSeveral(outside, read.length)) {
    const sound = ways.find(({ chapter }) => chapter.cause.cause === "nothing_wrong");
    if (sound) {
      unknown_log = Math.max(unknown_log, sound.log) + Math.log1p(Math.exp(-Math.abs(unknown_log - sound.log)));
      sound.log = Number.NEGATIVE_INFINITY;
    }
  }
  const top = Math.max(unknown_log, ...ways.map(({ log }) => log));
  const all = Math.exp(unknown_log - top) + ways.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  const fitted = ways
    .map(({ chapter, small: own, found, log }): Fitted => {
      const size = best(found);
      const prediction = predictionAt(small, own, size);
      return { chapter, found, size, prediction, probability: Math.exp(log - top) / all };
    })
    .sort((a, b) => b.probability - a.probability);

  const causes = [...new Set(fitted.map(({ chapter }) => chapter.cause))].map((cause) => {
    const its = fitted.filter(({ chapter }) => chapter.cause === cause);
    return causeOf(small, own, its, fitted[0]);
  });
  causes.push({ ...UNKNOWN, probability: Math.exp(unknown_log - top) / all });
  return {
    causes: causes.sort((a, b) => b.probability - a.probability),
    ways: fitted.map(({ chapter, probability, size }) => ({
      ...{ cause: chapter.cause.cause, where: chapter.variant.where, probability, size, chapter },
    })),
  };
}

/** So many of a sheet's lines outside their bands, and such a share of them, are more than chance (no source). */
const SEVERAL = { lines: 4, share: 0.15 };

export const isSeveral = (outside: number, lines: number): boolean =>
  outside >= SEVERAL.lines && outside >= SEVERAL.share * lines;

/** Of each way of a cause, as a logarithm; of none of these where no chapter is given. */
function priorsOf({ chapters }: Book, told: Priors): (chapter?: Chapter) => number {
  const of = (cause: CauseName) => told[cause] ?? 1;
  const wrong = [...new Set(chapters.map(({ cause }) => cause.cause)), "none_of_these" as const]
    .filter((cause) => cause !== "nothing_wrong")
    .reduce((sum, cause) => sum + of(cause), 0);
  return (chapter) => {
    if (!chapter) return Math.log(of("none_of_these"));
    const { cause, variant } = chapter;
    const weights = cause.variants.reduce((sum, { weight = 1 }) => sum + weight, 0);
    const whole = told[cause.cause] ?? (cause.cause === "nothing_wrong" ? wrong : 1);
    return Math.log((whole * (variant.weight ?? 1)) / weights);
  };
}

/** The size that fits best. */
const best = ({ sizes, logs }: Along): number => sizes[logs.indexOf(Math.max(...logs))];

/** The same with what it has the readings at that were taken. */
interface Fitted {
  readonly chapter: Chapter;
  readonly found: Along;
  readonly size: number;
  readonly prediction: Prediction;
  readonly probability: number;
}

/** A cause from its ways, the likeliest first, beside the likeliest way of all. */
function causeOf(book: Book, read: readonly Read[], ways: readonly Fitted[], first: Fitted): RankedCause {
  const [{ chapter, found, size, prediction }] = ways;
  const { cause, variant } = chapter;
  const fixed = cause.unit === "none";
  const [low, high] = nineInTen(found.sizes, found.logs);
  return {
    cause: cause.cause,
    probability: ways.reduce((sum, { probability }) => sum + probability, 0),
    where: variant.where,
    ways: namedOnce(ways),
    size: fixed ? null : size,
    size_low: fixed ? null : Math.min(low, size),
    size_high: fixed ? null : Math.max(high, size),
    size_unit: cause.unit,
    evidence: evidenceFor(book, prediction, book.sound, read),
    against: cause === first.chapter.cause ? [] : evidenceFor(book, first.prediction, prediction, read),
  };
}

/** A way may stand more than once, with one thing or another beside it: its name stands once, the likeliest first. */
function namedOnce(ways: readonly Fitted[]): RankedCause["ways"] {
  const names = [...new Set(ways.map(({ chapter }) => chapter.variant.where))];
  const of = (where: string) => ways.filter(({ chapter }) => chapter.variant.where === where);
  return names
    .map((where) => ({ where, probability: of(where).reduce((sum, { probability }) => sum + probability, 0) }))
    .sort((a, b) => b.probability - a.probability);
}

/** That something else is wrong predicts nothing. */
const UNKNOWN: RankedCause = {
  ...{ cause: "none_of_these", probability: 0, where: "", ways: [], evidence: [], against: [] },
  ...{ size: null, size_low: null, size_high: null, size_unit: "none" },
};

/** Sizes that leave a twentieth of the likelihood on either side. */
function nineInTen(sizes: readonly number[], logs: readonly number[]): [number, number] {
  const top = Math.max(...logs);
  const shares = logs.map((log) => Math.exp(log - top));
  const all = shares.reduce((sum, each) => sum + each, 0);
  const reach = (part: number) => {
    let sum = 0;
    const at = shares.findIndex((each) => {
      sum += each;
      return sum >= part * all;
    });
    return sizes[at < 0 ? sizes.length - 1 : at];
  };
  const ends: [number, number] = [reach(0.05), reach(0.95)];
  return ends[0] <= ends[1] ? ends : [ends[1], ends[0]];
}
