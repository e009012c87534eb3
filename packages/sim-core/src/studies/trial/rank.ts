import type { Book, Prediction } from "./book.js";
import type { CauseName, SizeUnit } from "./causes.js";
import { type Evidence, evidenceFor } from "./evidence.js";
import { type Along, along, atSizes, logNoneOfThese, predictionAt, type Read } from "./likelihood.js";

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

/** One way of a cause, fitted; `prediction` is what it has every reading at. */
export interface FittedWay {
  readonly cause: CauseName;
  readonly where: string;
  readonly probability: number;
  readonly prediction: Prediction;
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

export function rank(book: Book, read: readonly Read[], priors: Priors = {}): Ranking {
  const named = [...new Set(book.chapters.map(({ cause }) => cause.cause))];
  const told = (cause: CauseName) => priors[cause] ?? 1;
  const wrong = named.filter((cause) => cause !== "nothing_wrong").reduce((sum, cause) => sum + told(cause), 0);
  const usual = { nothing_wrong: wrong + told("none_of_these") } as Priors;
  const prior = (cause: CauseName) => priors[cause] ?? usual[cause] ?? 1;

  const tried = book.chapters.map((chapter) => atSizes(book, chapter, read));
  const closest = Math.max(...tried.flat());
  const ways = book.chapters.map((chapter, i) => {
    const { cause, variant } = chapter;
    const found = along(book, chapter, read, tried[i], closest);
    const siblings = book.chapters.filter((other) => other.cause === cause);
    const weights = siblings.reduce((sum, other) => sum + (other.variant.weight ?? 1), 0);
    return { cause, found, log: Math.log((prior(cause.cause) * (variant.weight ?? 1)) / weights) + found.log };
  });
  const unknown_log = Math.log(prior("none_of_these")) + logNoneOfThese(book, read);
  const top = Math.max(unknown_log, ...ways.map(({ log }) => log));
  const all = Math.exp(unknown_log - top) + ways.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  const fitted = ways
    .map(({ found, log }) => ({ found, probability: Math.exp(log - top) / all, at: best(found) }))
    .sort((a, b) => b.probability - a.probability);

  const causes = named.map((cause) => {
    const own = fitted.filter(({ found }) => found.chapter.cause.cause === cause);
    return causeOf(book, read, own);
  });
  causes.push({ ...UNKNOWN, probability: Math.exp(unknown_log - top) / all });
  causes.sort((a, b) => b.probability - a.probability);
  const predicted = new Map(
    fitted.toReversed().map(({ found: { chapter }, at }) => [chapter.cause.cause, predictionAt(chapter, at)] as const),
  );
  const first = predicted.get(causes[0].cause);
  for (const cause of causes.slice(1)) {
    const other = predicted.get(cause.cause);
    if (first && other) cause.against = evidenceFor(book, first, other, read);
  }
  return {
    causes,
    ways: fitted.map(({ found: { chapter }, probability, at }) => ({
      ...{ cause: chapter.cause.cause, where: chapter.variant.where, probability },
      prediction: predictionAt(chapter, at),
    })),
  };
}

/** The size that fits best. */
const best = ({ sizes, logs }: Along): number => sizes[logs.indexOf(Math.max(...logs))];

interface Found {
  readonly found: Along;
  readonly probability: number;
  readonly at: number;
}

/** A cause from its ways, the likeliest first. */
function causeOf(book: Book, read: readonly Read[], ways: readonly Found[]): RankedCause {
  const [{ found, at }] = ways;
  const { cause, variant } = found.chapter;
  const fixed = cause.unit === "none";
  const [low, high] = nineInTen(found.sizes, found.logs);
  return {
    cause: cause.cause,
    probability: ways.reduce((sum, { probability }) => sum + probability, 0),
    where: variant.where,
    ways: ways.map((way) => ({ where: way.found.chapter.variant.where, probability: way.probability })),
    size: fixed ? null : at,
    size_low: fixed ? null : low,
    size_high: fixed ? null : high,
    size_unit: cause.unit,
    evidence: evidenceFor(book, predictionAt(found.chapter, at), book.sound, read),
    against: [],
  };
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
