import { backwards, cholesky, forwards } from "../../numeric/cholesky.js";
import { logNormal } from "../../numeric/normal.js";
import type { Book } from "./book.js";
import type { CauseName } from "./causes.kinds.js";
import { told } from "./evidence.js";
import { onScale } from "./instruments.js";
import { likelyYes, logLikelihood, type Read, spread } from "./likelihood.js";
import type { StepName } from "./machine.js";
import type { Prediction } from "./predict.js";
import type { FittedWay, RankedCause } from "./rank.js";
import type { Reading, ReadingUnit } from "./readings.kinds.js";

/** What to look at or read next: what would best tell the leading causes apart. */
export interface NextReading {
  reading: string;
  step: StepName;
  what: string;
  unit: ReadingUnit;
  /** Was it taken already, and is to be read once more since nothing fits it? */
  again: boolean;
  /** How much it is expected to tell, as a logarithm to base 2. */
  bits: number;
  /** What each of the leading causes would read there, way by way; 1 and 0 are yes and no, null is nothing to read. */
  would_read: { cause: CauseName; where: string; value: number | null }[];
}

// The figures that follow are judgement, no source.
/** Causes less likely than this beside the likeliest are not worth a reading; so many are told, and so many compared. */
const LEADING = 0.02;
const TOLD = 3;
const COMPARED = 12;
/** A reading that stands earlier on the sheet is preferred to one that tells up to this much more. */
const AS_GOOD = 0.85;
/** A look costs nothing: it is preferred to a reading that tells up to so many times as much. */
const LOOK = 2;
/** Less than this tells nothing. */
const LEAST_bits = 0.02;
/** A cause this likely is beyond doubt. */
const BEYOND_DOUBT = 0.99;

/** A way that another reading is to tell from the others, with what it has every reading at. */
export interface Rival extends FittedWay {
  readonly prediction: Prediction;
}

/** The ways of the causes that another reading is to tell apart. */
export function nextRivals(ways: readonly FittedWay[]): FittedWay[] {
  const least = LEADING * (ways[0]?.probability ?? 0);
  return ways.filter(({ probability }) => probability > 0 && probability >= least).slice(0, COMPARED);
}

/**
 * Null only where a cause is beyond doubt and nothing left tells more of it, or where everything has been read.
 * @param rivals the likeliest first, as are the causes
 */
export function nextReading(
  book: Book,
  read: readonly Read[],
  rivals: readonly Rival[],
  causes: readonly Pick<RankedCause, "cause" | "probability">[],
): NextReading | null {
  if (causes[0]?.cause === "none_of_these") return oddOne(book, read, rivals);
  const taken = new Set(read.map(({ at }) => at));
  const gains = book.readings.map((reading, at) =>
    taken.has(at) || !mayBeAsked(book, reading) ? 0 : gain_bits(book, read, rivals, at),
  );
  const worth = gains.map((bits, at) => (book.readings[at].step === "looks" ? LOOK * bits : bits));
  const best = Math.max(0, ...worth);
  if (best === 0 || (best < LEAST_bits && (causes[0]?.probability ?? 0) >= BEYOND_DOUBT)) return null;
  // The first on the sheet of those that tell nearly as much: earlier steps are easier and safer, and gentler tests stand first.
  const at = worth.findIndex((bits) => bits >= AS_GOOD * best);
  return nextOf(book, rivals, at, gains[at]);
}

/** Nobody is sent up the steepest place, or round the line, with a train that has no brake. */
function mayBeAsked({ setting: { machine } }: Book, { step }: Reading): boolean {
  if (step === "after_laps") return false;
  return machine.train.brakes.length > 0 || (step !== "restart" && step !== "parked");
}

/** Where nothing known fits: the reading that fits the likeliest known cause least, to be taken again. */
function oddOne(book: Book, read: readonly Read[], rivals: readonly Rival[]): NextReading | null {
  const [first] = rivals;
  if (!first || read.length === 0) return null;
  const odd = (each: Read) =>
    logLikelihood(book, first.prediction, [each]) + Math.log(spread(first.prediction, each.at) || 1);
  const { at } = read.reduce((a, b) => (odd(b) < odd(a) ? b : a));
  return { ...nextOf(book, rivals, at, 0), again: true };
}

function nextOf(book: Book, rivals: readonly Rival[], at: number, bits: number): NextReading {
  const { reading, step, what, unit } = book.readings[at];
  const would_read = rivals
    .filter(({ cause, where }, i) => rivals.findIndex((each) => each.cause === cause && each.where === where) === i)
    .slice(0, TOLD)
    .map(({ cause, where, prediction }) => ({ cause, where, value: told(book, prediction, at) }));
  return { reading, step, what, unit, again: false, bits, would_read };
}

/** Information that a reading is expected to give on which of the rivals it is, in bits. */
export function gain_bits(book: Book, read: readonly Read[], rivals: readonly Rival[], at: number): number {
  const all = rivals.reduce((sum, { probability }) => sum + probability, 0);
  const shares = rivals.map(({ probability }) => probability / all);
  if (book.readings[at].unit === "yes/no") {
    const yes = rivals.map(({ prediction }) => likelyYes(prediction, at, book.readings[at].misread));
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

/** The sum over what might be read goes so far either side of each cause's middle, in so many steps a standard deviation. */
const REACH_sd = 5;
const STEPS_sd = 4;
const NODES = Array.from({ length: 2 * REACH_sd * STEPS_sd + 1 }, (_, i) => i / STEPS_sd - REACH_sd);
const WEIGHTS = NODES.map((z) => Math.exp(logNormal(z, 1)) / STEPS_sd);

/**
 * Mutual information of cause and reading, bits: for each cause the mean, over what it may read, of how much likelier it
 * makes that than all together do. That there is nothing to read tells as much as any value.
 */
function mutual_bits(shares: readonly number[], expected: readonly (Foreseen | null)[]): number {
  const there = expected.flatMap((each, i) => (each && shares[i] > 0 ? [{ ...each, share: shares[i] }] : []));
  const present = there.reduce((sum, { share }) => sum + share, 0);
  const narrowest = Math.max(...there.map(({ sd }) => sd)) * LEAST_LEFT;
  const sdOf = (each: Foreseen) => Math.max(each.sd, narrowest, Number.MIN_VALUE);
  let bits = entropy(present);
  for (const mine of there) {
    for (let k = 0; k < NODES.length; k++) {
      const x = mine.mean + NODES[k] * sdOf(mine);
      const own = logNormal(x - mine.mean, sdOf(mine));
      const all = there.reduce(
        (sum, each) => sum + (each.share / present) * Math.exp(logNormal(x - each.mean, sdOf(each)) - own),
        0,
      );
      bits -= mine.share * WEIGHTS[k] * Math.log2(all);
    }
  }
  return Math.max(0, bits);
}
