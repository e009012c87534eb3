import type { Book, Chapter, Prediction } from "./book.js";
import { CAUSES, type CauseName, type SizeUnit } from "./causes.js";
import { type Evidence, evidenceFor } from "./evidence.js";
import { along, logNoneOfThese, predictionAt, type Read } from "./likelihood.js";

/** A cause as what was read makes it likely. */
export interface RankedCause {
  cause: CauseName;
  probability: number;
  /** The likeliest of its ways; "" where it has one. */
  where: string;
  /** What fits best, and between what nine in ten of the likelihood lie; null where there is nothing to fit. */
  size: number | null;
  size_low: number | null;
  size_high: number | null;
  size_unit: SizeUnit;
  /** The readings that speak for it most, against a sound machine. */
  evidence: Evidence[];
}

/** A cause with what it predicts at its best fit, for whoever compares causes; none_of_these predicts nothing. */
export interface Fitted {
  readonly ranked: RankedCause;
  readonly prediction: Prediction | undefined;
}

/**
 * How likely each cause is before anything is read, in proportion: 1 where it is not told. That nothing is wrong is as
 * likely as all the rest together, unless told.
 */
export type Priors = Partial<Record<CauseName, number>>;

/** Every cause, the likeliest first. */
export function rank(book: Book, read: readonly Read[], priors: Priors = {}): Fitted[] {
  const possible = new Set(book.chapters.map(({ cause }) => cause.cause));
  const wrong = CAUSES.filter(
    (cause) => cause !== "nothing_wrong" && (cause === "none_of_these" || possible.has(cause)),
  );
  const usual: Priors = { nothing_wrong: wrong.reduce((sum, cause) => sum + (priors[cause] ?? 1), 0) };
  const found = CAUSES.flatMap((cause): { log: number; fitted: Fitted }[] => {
    const prior = Math.log(priors[cause] ?? usual[cause] ?? 1);
    if (cause === "none_of_these") return [{ log: prior + logNoneOfThese(book, read), fitted: unknown() }];
    const ways = book.chapters.filter((chapter) => chapter.cause.cause === cause).map((c) => along(book, c, read));
    if (ways.length === 0) return [];
    const best = ways.reduce((a, b) => (b.log > a.log ? b : a));
    const top = Math.max(...ways.map(({ log }) => log));
    const log = top + Math.log(ways.reduce((sum, way) => sum + Math.exp(way.log - top), 0) / ways.length);
    return [{ log: prior + log, fitted: fit(book, best.chapter, best.sizes, best.logs, read) }];
  });
  const top = Math.max(...found.map(({ log }) => log));
  const all = found.reduce((sum, { log }) => sum + Math.exp(log - top), 0);
  for (const { log, fitted } of found) fitted.ranked.probability = Math.exp(log - top) / all;
  return found.map(({ fitted }) => fitted).sort((a, b) => b.ranked.probability - a.ranked.probability);
}

function fit(
  book: Book,
  chapter: Chapter,
  sizes: readonly number[],
  logs: readonly number[],
  read: readonly Read[],
): Fitted {
  const { cause, variant } = chapter;
  const size = sizes[logs.indexOf(Math.max(...logs))];
  const prediction = predictionAt(chapter, size);
  const fixed = cause.unit === "none";
  const [low, high] = nineInTen(sizes, logs);
  return {
    ranked: {
      cause: cause.cause,
      probability: 0,
      where: variant.where,
      size: fixed ? null : size,
      size_low: fixed ? null : low,
      size_high: fixed ? null : high,
      size_unit: cause.unit,
      evidence: evidenceFor(book, prediction, book.sound, read),
    },
    prediction,
  };
}

const unknown = (): Fitted => ({
  ranked: {
    cause: "none_of_these",
    probability: 0,
    where: "",
    ...{ size: null, size_low: null, size_high: null, size_unit: "none" as const },
    evidence: [],
  },
  prediction: undefined,
});

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
