import { InputError, shown } from "../errors.js";
import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";
import { STEEPEST } from "../parts/track.js";
import { sound } from "../record/sound.js";
import { type BookRow, wrongInBook } from "./book.js";
import { carriedBetween, carryLevels, sectionsOf, slipOf } from "./carried.js";
import type { BookChecks, BookSection, LevelPoint, LevelsAnswer } from "./levelled.js";
import { allowed, benchMarks, doubts, fits, readingsBetween, spread } from "./misclosure.js";
import { uncheckedSights } from "./sights.js";

export interface LevelsOptions {
  /** Millimetres that a book may miss by, times the square root of its length in km or of its set-ups. */
  class_mm?: number;
  per?: "km" | "setups";
  /** How the misclosure is spread; unless told by distance where every place has one, where it is allowed. */
  adjust?: "distance" | "setups" | "none";
  /** Standard deviation of one reading of the staff, m. */
  reading_sd_m?: number;
}

/** Fourth-order levelling, as a profile's misclosure is judged. */
const CLASS_mm = 24;
/** A staff with centimetres over the short sights of a club's line: common practice, no source. */
const READING_sd_m = 0.001;

/**
 * Reduces a levelling book by rise and fall and by the height of collimation, with the arithmetic checks of both, and spreads
 * what it misses its bench marks by.
 * @throws InputError with every row that will not do: `book.3`
 */
export function levels(book: readonly BookRow[], options: LevelsOptions = {}): LevelsAnswer {
  const problems = wrongInBook(book);
  if (problems.length > 0)
    throw new InputError(problems.map(({ row, message }) => ({ path: `book.${row + 1}`, message })));
  const { class_mm = CLASS_mm, per = "km", reading_sd_m = READING_sd_m } = options;
  const points = reduced(book);
  const known = points.flatMap(({ known_level_m }, i) => (i > 0 && known_level_m !== null ? [i] : []));
  const bench_marks = benchMarks(points, known, class_mm, per);
  const last = known.at(-1);
  const setups = points[points.length - 1].setup;
  const misclosure_m = bench_marks.at(-1)?.misclosure_m ?? null;
  const allowed_m = last === undefined ? null : allowed(points, 0, last, class_mm, per);
  const accepted =
    misclosure_m === null || allowed_m === null
      ? null
      : fits(misclosure_m, allowed_m) && bench_marks.every((mark) => mark.accepted !== false);
  const measured = points.every(({ distance_m }) => distance_m !== null);
  const usual = accepted === true ? (measured ? "distance" : "setups") : "none";
  const asked = options.adjust ?? usual;
  const adjusted_by = last === undefined ? "none" : asked === "distance" && !measured ? "setups" : asked;
  const shares = adjusted_by === "none" ? undefined : spread(points, known, adjusted_by);
  const intermediate = book.map(({ intermediate_m }) => intermediate_m !== null);
  refuseSteep(points);
  doubts(points, intermediate, known, shares, reading_sd_m);
  const sections = sectionsOf(points, intermediate, {
    known,
    bench_marks,
    misclosure_m,
    allowed_m,
    sd_m: reading_sd_m,
    slip_m: slipOf(book),
  });
  carryLevels(points, sections, shares !== undefined);
  return sound({
    points,
    gradients: gradientsOf(points, intermediate, sections, reading_sd_m),
    sections,
    unchecked: uncheckedSights(points, intermediate, onRail(points)),
    setups,
    bench_marks,
    misclosure_m,
    allowed_m,
    accepted,
    adjusted_by,
    checks: checksOf(book, points),
  });
}

/** Level after level, each by the height of collimation of its set-up; the first is known, or 0. */
function reduced(book: readonly BookRow[]): LevelPoint[] {
  const points: LevelPoint[] = [];
  let collimation_m = 0;
  let before_m = 0;
  let setup = 0;
  for (const [i, row] of book.entries()) {
    const reading_m = row.foresight_m ?? row.intermediate_m;
    const level_m = i === 0 ? (row.known_level_m ?? 0) : collimation_m - (reading_m as number);
    points.push({
      place: row.place,
      distance_m: row.distance_m,
      level_m,
      doubt_m: 0,
      doubt_of_readings_m: 0,
      reduced_m: level_m,
      correction_m: 0,
      rise_m: i === 0 ? null : before_m - (reading_m as number),
      setup: Math.max(1, setup),
      known_level_m: row.known_level_m,
      inverted: [row.backsight_m, row.intermediate_m, row.foresight_m].some(
        (sight_m) => sight_m !== null && sight_m < 0,
      ),
    });
    if (reading_m !== null) before_m = reading_m;
    if (row.backsight_m === null) continue;
    collimation_m = level_m + row.backsight_m;
    before_m = row.backsight_m;
    setup++;
  }
  return points;
}

/** The places of the rail, which have a distance along it. */
const onRail = (points: readonly LevelPoint[]): number[] =>
  points.flatMap(({ distance_m, inverted }, i) => (distance_m === null || inverted ? [] : [i]));

function refuseSteep(points: readonly LevelPoint[]): void {
  const along = onRail(points);
  const steep = along.slice(1).flatMap((to, k) => {
    const [a, b] = [points[along[k]], points[to]];
    const apart_m = (b.distance_m as number) - (a.distance_m as number);
    if (Math.abs(b.reduced_m - a.reduced_m) <= STEEPEST * apart_m) return [];
    const rise_m = b.reduced_m - a.reduced_m;
    const found = `${shown(Math.abs(rise_m), "m")} ${rise_m > 0 ? "higher" : "lower"} than the place ${shown(apart_m, "m")} before it`;
    const message = `this place is ${found}, steeper than 1 in ${1 / STEEPEST}, which no rail is; look at the reading, the distance and their units, and leave the distance blank where it was not the rail that was sighted`;
    return [{ path: `book.${to + 1}`, message }];
  });
  if (steep.length > 0) throw new InputError(steep);
}

/** Between places of the rail that follow each other. */
function gradientsOf(
  points: readonly LevelPoint[],
  intermediate: readonly boolean[],
  sections: readonly BookSection[],
  sd_m: number,
): LevelsAnswer["gradients"] {
  const along = onRail(points);
  return along.slice(1).map((to, k) => {
    const [before, point] = [points[along[k]], points[to]];
    const [from_m, to_m] = [before.distance_m as number, point.distance_m as number];
    const readings_m = NINETEEN_IN_TWENTY * sd_m * Math.sqrt(readingsBetween(points, intermediate, along[k], to));
    const doubt_m = Math.hypot(readings_m, carriedBetween(sections, along[k], to));
    return {
      from_m,
      to_m,
      gradient_percent: (100 * (point.level_m - before.level_m)) / (to_m - from_m),
      doubt_percent: (100 * doubt_m) / (to_m - from_m),
      doubt_of_readings_percent: (100 * readings_m) / (to_m - from_m),
    };
  });
}

/** A millimetre of a book is its last figure; sums of hundreds of them are still good to this. */
const ARITHMETIC_m = 1e-6;

function checksOf(book: readonly BookRow[], points: readonly LevelPoint[]): BookChecks {
  const sum = (of: (row: BookRow) => number | null) => book.reduce((total, row) => total + (of(row) ?? 0), 0);
  // A book that ends in an intermediate sight closes on that.
  const ends_m = book[book.length - 1].foresight_m === null ? (book[book.length - 1].intermediate_m ?? 0) : 0;
  const rises = points.map(({ rise_m }) => rise_m ?? 0);
  const checks = {
    backsights_m: sum(({ backsight_m }) => backsight_m),
    foresights_m: sum(({ foresight_m }) => foresight_m) + ends_m,
    rises_m: rises.filter((rise) => rise > 0).reduce((a, b) => a + b, 0),
    falls_m: -rises.filter((rise) => rise < 0).reduce((a, b) => a + b, 0),
    last_less_first_m: points[points.length - 1].reduced_m - points[0].reduced_m,
  };
  const by = [checks.backsights_m - checks.foresights_m, checks.rises_m - checks.falls_m];
  return { ...checks, agree: by.every((each) => Math.abs(each - checks.last_less_first_m) < ARITHMETIC_m) };
}
