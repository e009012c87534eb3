import { backwards, cholesky, forwards } from "../../numeric/cholesky.js";
import { logNormal } from "../../numeric/normal.js";
import type { Book } from "./book.js";
import type { CauseName } from "./causes.js";
import { told } from "./evidence.js";
import { onScale } from "./instruments.js";
import { likelyYes, type Read } from "./likelihood.js";
import type { Prediction } from "./predict.js";
import type { FittedWay } from "./rank.js";
import { STEPS, type StepName } from "./readings.kinds.js";

/** The reading not yet taken that would best tell the leading causes apart. */
export interface NextReading {
  reading: string;
  step: StepName;
  what: string;
  /** How much it is expected to tell, as a logarithm to base 2. */
  bits: number;
  /** What each of the leading causes would read there, way by way; 1 and 0 are yes and no, null is nothing to read. */
  would_read: { cause: CauseName; where: string; value: number | null }[];
}

// The four figures that follow are judgement, no source.
/** Causes less likely than this are not worth a reading, and so many are told. */
const LEADING = 0.02;
const TOLD = 3;
/** A reading of an earlier step is easier and safer to take: it is preferred to one that tells up to this much more. */
const AS_GOOD = 0.85;
/** Less than this tells nothing. */
const LEAST_bits = 0.02;

/** Null where no reading is left that would tell anything. */
export function nextReading(book: Book, read: readonly Read[], ways: readonly FittedWay[]): NextReading | null {
  const rivals = ways.filter(({ probability }) => probability >= LEADING);
  const taken = new Set(read.map(({ at }) => at));
  const gains = book.readings.map(({ step }, at) =>
    taken.has(at) || step === "after_laps" ? 0 : gain_bits(book, read, rivals, at),
  );
  const best = Math.max(...gains);
  if (!(best >= LEAST_bits)) return null;
  const candidates = gains.flatMap((bits, at) => (bits >= AS_GOOD * best ? [at] : []));
  const stepOf = (at: number) => STEPS.indexOf(book.readings[at].step);
  const at = candidates.reduce((a, b) =>
    stepOf(b) < stepOf(a) || (stepOf(b) === stepOf(a) && gains[b] > gains[a]) ? b : a,
  );
  const { reading, step, what } = book.readings[at];
  const would_read = rivals
    .slice(0, TOLD)
    .map(({ cause, where, prediction }) => ({ cause, where, value: told(book, prediction, at) }));
  return { reading, step, what, bits: gains[at], would_read };
}

/** Information that a reading is expected to give on which of the rivals it is, in bits. */
export function gain_bits(book: Book, read: readonly Read[], rivals: readonly FittedWay[], at: number): number {
  const all = rivals.reduce((sum, { probability }) => sum + probability, 0);
  const shares = rivals.map(({ probability }) => probability / all);
  if (book.readings[at].unit === "yes/no") {
    const yes = rivals.map(({ prediction }) => likelyYes(prediction, at));
    const mean = yes.reduce((sum, each, i) => sum + shares[i] * each, 0);
    return entropy(mean) - yes.reduce((sum, each, i) => sum + shares[i] * entropy(each), 0);
  }
  const expected = rivals.map(({ prediction }) => foreseen(book, read, prediction, at));
  if (expected.every((each) => each === null)) return 0;
  return mutual_bits(shares, expected);
}

const entropy = (p: number): number => (p <= 0 || p >= 1 ? 0 : -(p * Math.log2(p) + (1 - p) * Math.log2(1 - p)));

interface Foreseen {
  readonly mean: number;
  readonly sd: number;
}

/** Rounding must not leave less of a variance than this share. */
const LEAST_LEFT = 1e-3;

/** What a cause has a reading at, on its scale, now that others have been taken: they share doubts. Null where there is nothing to read. */
function foreseen(book: Book, read: readonly Read[], prediction: Prediction, at: number): Foreseen | null {
  const { values, scaled, covariance } = prediction;
  const mean = scaled[at];
  if (mean === null) return null;
  const known = read.filter((each) => values[each.at] !== null && book.readings[each.at].unit !== "yes/no");
  const common = (a: number, b: number) => covariance[a * values.length + b];
  const k = known.length;
  const among = Float64Array.from({ length: k * k }, (_, i) => common(known[Math.floor(i / k)].at, known[i % k].at));
  const low = k > 0 ? cholesky(among, k) : undefined;
  const variance = common(at, at);
  if (!low) return { mean, sd: Math.sqrt(variance) };
  const cross = Float64Array.from(known, (each) => common(at, each.at));
  const weights = cross.slice();
  forwards(low, weights);
  backwards(low, weights);
  const off = (each: Read) => onScale(book.readings[each.at].instrument, each.value) - (scaled[each.at] ?? 0);
  const shift = known.reduce((sum, each, i) => sum + weights[i] * off(each), 0);
  const explained = cross.reduce((sum, each, i) => sum + each * weights[i], 0);
  return { mean: mean + shift, sd: Math.sqrt(Math.max(variance - explained, LEAST_LEFT * variance)) };
}

/** Points of the sum over what might be read, at least and at most, and how far it goes, in standard deviations. */
const POINTS = 201;
const MOST_POINTS = 20000;
const REACH_sd = 4;

/** Mutual information of cause and reading, bits; that there is nothing to read tells as much as any value. */
function mutual_bits(shares: readonly number[], expected: readonly (Foreseen | null)[]): number {
  const there = expected.flatMap((each, i) => (each ? [{ ...each, share: shares[i] }] : []));
  const present = there.reduce((sum, { share }) => sum + share, 0);
  const low = Math.min(...there.map(({ mean, sd }) => mean - REACH_sd * sd));
  const high = Math.max(...there.map(({ mean, sd }) => mean + REACH_sd * sd));
  // Narrow readings far apart are told apart wholly; the grid need not be finer than the narrowest of those that overlap.
  const narrow = Math.min(...there.map(({ sd }) => sd));
  const points = Math.min(MOST_POINTS, Math.max(POINTS, Math.ceil((3 * (high - low)) / narrow)));
  const step = (high - low) / points;
  let bits = entropy(present);
  for (let i = 0; i <= points; i++) {
    const x = low + i * step;
    const densities = there.map(({ mean, sd }) => Math.exp(logNormal(x - mean, sd)));
    const mixed = densities.reduce((sum, density, j) => sum + (there[j].share / present) * density, 0);
    densities.forEach((density, j) => {
      if (density > 0) bits += there[j].share * density * Math.log2(density / mixed) * step;
    });
  }
  return Math.max(0, bits);
}
