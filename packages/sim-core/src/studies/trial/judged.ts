import type { Book } from "./book.js";
import type { Cause, Variant } from "./causes.kinds.js";
import { predictionAt, type Read } from "./likelihood.js";
import { isOutside, lineOf, type SheetReading } from "./lines.js";
import { type NextReading, nextReading, nextRivals } from "./next.js";
import { type Priors, type RankedCause, type Ranking, rank } from "./rank.js";
import type { Told } from "./setting.js";

/** One line of a filled sheet. */
export interface Taken {
  reading: string;
  /** In the unit of the sheet; 1 for yes and 0 for no. */
  value: number;
}

/** What was read, in the sheet's own units, how likely each cause is beforehand, and how it was on the day. */
export interface Filled {
  readonly taken: readonly Taken[];
  readonly priors?: Priors;
  readonly told?: Told;
}

/** A line of the sheet, as it was filled in. */
export interface TakenLine extends SheetReading {
  read: number;
  /** Does it lie where only one sound loco in twenty reads? */
  outside: boolean;
}

/** What a filled sheet comes to. */
export interface Judged {
  taken: TakenLine[];
  causes: RankedCause[];
  next_reading: NextReading | null;
}

/** What a sound loco reads, and each cause, of some readings; of all unless named. */
export type Books = (names?: readonly string[], causes?: readonly Cause[], worth?: (way: Variant) => boolean) => Book;

/**
 * What a filled sheet makes likely. Only what was read is worked out for every cause; the rest for those that lead.
 * @param early names of the readings that need no laps
 */
export function judged(books: Books, early: readonly string[], filled: Filled): Judged {
  const names = filled.taken.map(({ reading }) => reading);
  const before = names.filter((name) => early.includes(name));
  // Laps take long to run: only with what the other readings leave possible.
  const possible = before.length < names.length && before.length > 0 ? waysLeft(books(before), filled) : undefined;
  const own = books(names, undefined, possible && ((way) => possible.has(way)));
  const { taken, ranking } = ranked(own, filled);
  return { taken, causes: ranking.causes, next_reading: nextOf(books, filled, ranking) };
}

/** Less likely than this by its other readings, a way is not worth running its laps. */
const POSSIBLE = 1e-6;

const waysLeft = (book: Book, filled: Filled): Set<Variant> =>
  new Set(
    rank(book, readOf(book, filled), filled.priors).ways.flatMap(({ chapter, probability }) =>
      probability > POSSIBLE ? [chapter.variant] : [],
    ),
  );

function nextOf(books: Books, filled: Filled, { causes, ways }: Ranking): NextReading | null {
  const rivals = nextRivals(ways);
  if (rivals.length === 0) return null;
  const wide = books(
    undefined,
    rivals.map(({ chapter: { cause, variant }, size }) => ({ ...cause, variants: [{ ...variant, sizes: [size] }] })),
  );
  const foreseen = rivals.map((way, i) => ({ ...way, prediction: wide.chapters[i].predictions[0] }));
  return nextReading(wide, readOf(wide, filled), foreseen, causes);
}

/** The causes that a filled sheet makes likely, by a book that has every reading. */
export function judge(book: Book, filled: Filled): Judged {
  const { taken, ranking } = ranked(book, filled);
  const rivals = nextRivals(ranking.ways).map((way) => ({
    ...way,
    prediction: predictionAt(book, way.chapter, way.size),
  }));
  const next_reading = nextReading(book, readOf(book, filled), rivals, ranking.causes);
  return { taken, causes: ranking.causes, next_reading };
}

function ranked(book: Book, filled: Filled): { taken: TakenLine[]; ranking: Ranking } {
  const read = readOf(book, filled);
  const taken = read.map(({ at, value }): TakenLine => {
    const line = lineOf(book, book.sound, at);
    return { ...line, read: value, outside: isOutside(line, value) };
  });
  const outside = taken.filter((line) => line.outside).length;
  return { taken, ranking: rank(book, read, filled.priors, outside) };
}

const readOf = ({ readings }: Book, { taken }: Filled): Read[] =>
  taken.flatMap(({ reading, value }): Read[] => {
    const at = readings.findIndex((each) => each.reading === reading);
    return at < 0 ? [] : [{ at, value }];
  });
