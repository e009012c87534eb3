import { below, logJointWidened, logMean, logWidened } from "../../numeric/normal.js";
import type { Book, Chapter } from "./book.js";
import { MISREAD, type Misread, onScale, SEEN, WIDTHS } from "./instruments.js";
import { between, type Prediction } from "./predict.js";

/** What was read: the place of the reading in the book, and its value, 1 for yes and 0 for no. */
export interface Read {
  readonly at: number;
  readonly value: number;
}

/** Standard deviation of a reading from what is predicted, on its scale: the instrument's error and the doubts together. */
export const spread = ({ covariance, values }: Prediction, r: number): number =>
  Math.sqrt(covariance[r * values.length + r]);

/** How likely a yes is, where the prediction is a margin in doubt. */
export function likelyYes(prediction: Prediction, r: number, { wrongNo, wrongYes }: Misread = SEEN): number {
  const margin = prediction.values[r];
  if (margin === null) return 0.5;
  const sd = spread(prediction, r);
  const sure = sd > 0 ? below(margin / sd) : margin > 0 ? 1 : 0;
  return sure * (1 - wrongNo) + (1 - sure) * wrongYes;
}

/** How likely what was seen is, of a yes or no. */
export function likelySeen({ readings }: Book, prediction: Prediction, { at, value }: Read): number {
  const yes = likelyYes(prediction, at, readings[at].misread);
  return value === 1 ? yes : 1 - yes;
}

/**
 * How likely all that was read is, given a prediction: errors of instruments apart, doubts in common. How wide the doubts
 * are is in doubt too.
 */
export function logLikelihood(book: Book, prediction: Prediction, read: readonly Read[]): number {
  const { readings } = book;
  const { values, scaled } = prediction;
  let log = 0;
  const measured: Read[] = [];
  for (const each of read) {
    const known = values[each.at] !== null;
    if (readings[each.at].unit === "yes/no") log += Math.log(likelySeen(book, prediction, each));
    else if (!known) log += Math.log(MISREAD) + logAnything(book, each);
    else measured.push(each);
  }
  const n = measured.length;
  const off = new Float64Array(n);
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const a = measured[i].at;
    off[i] = onScale(readings[a].instrument, measured[i].value) - (scaled[a] ?? 0);
    for (let j = 0; j < n; j++) covariance[i * n + j] = prediction.covariance[a * values.length + measured[j].at];
  }
  return n === 0 ? log : log + logJointWidened(off, covariance, WIDTHS);
}

/**
 * How wide that is: a share of the sound machine's value, on a scale of ratios as much (a factor of two), and never less
 * than so many standard deviations (no source).
 */
const WIDE = { share: 0.3, ratio: 0.7, sd: 5 };

/** A reading that could be anything about as large as a sound machine's: far tails (Cauchy), so that nothing is impossible. */
function logAnything(book: Book, { at, value }: Read): number {
  const { unit, instrument } = book.readings[at];
  if (unit === "yes/no") return Math.log(0.5);
  const centre = book.sound.scaled[at] ?? 0;
  const width =
    Math.max(instrument?.plain ? WIDE.share * Math.abs(centre) : WIDE.ratio, WIDE.sd * spread(book.sound, at)) || 1;
  return -Math.log(Math.PI * width * (1 + ((onScale(instrument, value) - centre) / width) ** 2));
}

/** A fault that is not known touches this share of the readings (no source). */
const TOUCHED = 0.2;

/** How likely what was read is if something else is wrong: each reading is a sound machine's, or could be anything. */
export function logNoneOfThese(book: Book, read: readonly Read[]): number {
  const { sound, readings } = book;
  return read.reduce((log, each) => {
    const anything = TOUCHED * Math.exp(logAnything(book, each));
    const value = sound.scaled[each.at];
    if (value === null) return log + Math.log(anything);
    const { unit, instrument } = readings[each.at];
    const usual =
      unit === "yes/no"
        ? likelySeen(book, sound, each)
        : Math.exp(logWidened(onScale(instrument, each.value) - value, spread(sound, each.at), WIDTHS));
    return log + Math.log(anything + (1 - TOUCHED) * usual);
  }, 0);
}

/** The likelihood along the sizes of one way of a cause. */
export interface Along {
  /** Mean over the range, sizes being equally likely from end to end. */
  readonly log: number;
  readonly sizes: readonly number[];
  readonly logs: readonly number[];
}

/** Between two sizes tried, predictions are straight: so many places are looked at there. */
const BETWEEN = 6;
/** Where the likelihood is below the best that any cause has by more than this (in logs), nobody looks closer. */
const WORTH_A_LOOK = 40;

/** The likelihood at each size tried. */
export const atSizes = (book: Book, { predictions }: Chapter, read: readonly Read[]): number[] =>
  predictions.map((prediction) => logLikelihood(book, prediction, read));

/** @param tried likelihoods at the sizes tried; @param best the greatest that any way of any cause has there */
export function along(
  book: Book,
  chapter: Chapter,
  read: readonly Read[],
  tried: readonly number[],
  best: number,
): Along {
  const { predictions, variant } = chapter;
  const sizes = [variant.sizes[0]];
  const logs = [tried[0]];
  for (let i = 0; i + 1 < predictions.length; i++) {
    const close = Math.max(tried[i], tried[i + 1]) > best - WORTH_A_LOOK;
    for (let k = 1; k <= BETWEEN; k++) {
      const share = k / BETWEEN;
      sizes.push(variant.sizes[i] + share * (variant.sizes[i + 1] - variant.sizes[i]));
      if (k === BETWEEN) logs.push(tried[i + 1]);
      else if (close) logs.push(logLikelihood(book, between(predictions[i], predictions[i + 1], share, book), read));
      else logs.push(tried[i] + share * (tried[i + 1] - tried[i]));
    }
  }
  return { log: logMean(logs), sizes, logs };
}

/** The prediction at any size within the range. */
export function predictionAt(book: Book, { variant: { sizes }, predictions }: Chapter, size: number): Prediction {
  if (predictions.length === 1) return predictions[0];
  const up = sizes[sizes.length - 1] >= sizes[0];
  let i = 0;
  while (i + 2 < sizes.length && (up ? size >= sizes[i + 1] : size <= sizes[i + 1])) i++;
  return between(predictions[i], predictions[i + 1], (size - sizes[i]) / (sizes[i + 1] - sizes[i]), book);
}
