import type { Book, Chapter } from "./book.js";
import type { Cause, CauseName, SizeUnit } from "./causes.kinds.js";
import { told } from "./evidence.js";
import { type Says, SIGNS, SYMPTOMS, type Symptom } from "./faults.signs.js";
import { predictionAt, spread } from "./likelihood.js";
import type { Prediction } from "./predict.js";
import type { ReadingUnit } from "./readings.kinds.js";

/** What a symptom shows in, on a sound machine and with each cause that brings it about. */
export interface FaultRow {
  symptom: Symptom;
  /** What the telling readings are on a sound machine; 1 and 0 are yes and no, null is nothing to read. */
  sound: FaultReading[];
  causes: FaultCause[];
}

export interface FaultReading {
  reading: string;
  unit: ReadingUnit;
  value: number | null;
}

export interface FaultCause {
  cause: CauseName;
  where: string;
  /** The size it is worked out for: in the middle of its range, or the nearest that shows the symptom. */
  size: number | null;
  size_unit: SizeUnit;
  readings: FaultReading[];
  /** The reading by which it is told from the row's other causes, where one stands out. */
  told_by: string | null;
}

/** The causes without the ways that stand among theirs already, with something else beside it: a row tells each once. */
export const onceEach = (causes: readonly Cause[]): Cause[] =>
  causes.map((cause) => ({
    ...cause,
    variants: cause.variants.filter(
      ({ where }, i) => where === "" || cause.variants.findIndex((way) => way.where === where) === i,
    ),
  }));

/** For each symptom, the causes that show it at one of their sizes. @param book of causes with each of their ways once */
export function faultTable(book: Book): FaultRow[] {
  const place = new Map(book.readings.map(({ reading }, at) => [reading, at]));
  const valueIn = (prediction: Prediction, reading: string) => {
    const at = place.get(reading);
    return at === undefined ? null : told(book, prediction, at);
  };
  const breaker_A = book.setting.machine.train.breaker.rating_A;
  return SYMPTOMS.map((symptom): FaultRow => {
    const sign = SIGNS[symptom];
    const known = sign.readings.filter((reading) => place.has(reading));
    const rowOf = (prediction: Prediction): FaultReading[] =>
      known.map((reading) => ({
        reading,
        unit: book.readings[place.get(reading) ?? 0].unit,
        value: valueIn(prediction, reading),
      }));
    const shown = book.chapters.flatMap((chapter) => {
      if (chapter.cause.cause === "nothing_wrong") return [];
      return sizesOf(chapter)
        .map((size) => ({ chapter, size, prediction: predictionAt(book, chapter, size) }))
        .filter(({ prediction }) => {
          const says = (reading: string): Says => ({
            value: valueIn(prediction, reading) ?? 0,
            yes: valueIn(prediction, reading) === 1,
            no: valueIn(prediction, reading) === 0,
            usually: valueIn(book.sound, reading) === 1,
          });
          const x = (reading: string) =>
            (valueIn(prediction, reading) ?? Number.NaN) / (valueIn(book.sound, reading) ?? Number.NaN);
          return sign.shows(x, says, breaker_A);
        })
        .slice(0, 1);
    });
    return {
      symptom,
      sound: rowOf(book.sound),
      causes: shown.map(({ chapter: { cause, variant }, prediction, size }) => ({
        cause: cause.cause,
        where: variant.where,
        size: cause.unit === "none" ? null : size,
        size_unit: cause.unit,
        readings: rowOf(prediction),
        told_by: standsOut(
          book,
          prediction,
          shown.map((each) => each.prediction).filter((other) => other !== prediction),
        ),
      })),
    };
  });
}

/** The middle of the range, and then further and further out: the first that shows a symptom is told. */
function sizesOf({ variant: { sizes } }: Chapter): number[] {
  const last = sizes.length - 1;
  return [...new Set([0.5, 0.25, 0.75, 0, 1].map((share) => sizes[Math.round(share * last)]))];
}

/** A reading stands out from here on, in standard deviations; a yes against a no counts as so many. No source. */
const OUT_sd = 2;
const OPPOSITE_sd = 3;

/** The reading furthest, in standard deviations, from what the nearest other cause has there. */
function standsOut(book: Book, mine: Prediction, others: readonly Prediction[]): string | null {
  if (others.length === 0) return null;
  let best: string | null = null;
  let most = OUT_sd;
  book.readings.forEach(({ reading, unit }, at) => {
    const seen = unit === "yes/no";
    const valueIn = (prediction: Prediction) => (seen ? told(book, prediction, at) : prediction.scaled[at]);
    const value = valueIn(mine);
    if (value === null) return;
    const apart = others.map((other) => {
      const there = valueIn(other);
      if (there === null) return 0;
      return seen ? OPPOSITE_sd * Math.abs(value - there) : Math.abs(value - there) / spread(mine, at);
    });
    const nearest = Math.min(...apart);
    if (nearest > most) {
      most = nearest;
      best = reading;
    }
  });
  return best;
}
