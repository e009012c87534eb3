import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";
import type { Unfit } from "../parts/track.columns.js";
import { closingTolerance_m } from "../parts/track.js";
import type { BookRow } from "./book.js";
import type { BenchMark, BookSection, LevelPoint, LevelsAnswer } from "./levelled.js";
import { fits, readingsBetween } from "./misclosure.js";

/**
 * A staff misread by a whole metre, the slip that closing is there to find: common practice, no source. Nobody misreads by more
 * than there is to read.
 */
export const SLIP_m = 1;

/** The most that one misread reading of this book may be off by where nothing checks it, m. */
export const slipOf = (book: readonly BookRow[]): number =>
  book
    .flatMap(({ backsight_m, intermediate_m, foresight_m }) => [backsight_m, intermediate_m, foresight_m])
    .reduce<number>((most, each) => Math.max(most, Math.min(SLIP_m, Math.abs(each ?? 0))), 0);

interface Closing {
  readonly known: readonly number[];
  readonly bench_marks: readonly BenchMark[];
  readonly misclosure_m: number | null;
  readonly allowed_m: number | null;
  readonly sd_m: number;
  readonly slip_m: number;
}

/**
 * From bench mark to bench mark, what the readings do not explain of what the book misses there. A misclosure does not say
 * which reading is wrong, so all of it may lie between any two places. It is carried where the class does not allow it, and where readings as good
 * as they are taken to be would miss by so much less than once in twenty, whatever class was asked for. Behind the last bench mark
 * nothing closes, and a misread reading would not show.
 */
export function sectionsOf(
  points: readonly LevelPoint[],
  intermediate: readonly boolean[],
  { known, bench_marks, misclosure_m, allowed_m, sd_m, slip_m }: Closing,
): BookSection[] {
  const whole = misclosure_m !== null && allowed_m !== null && !fits(misclosure_m, allowed_m);
  const every = whole && bench_marks.every(({ accepted }) => accepted !== false);
  const closed = known.map((to, k): BookSection => {
    const from = k === 0 ? 0 : known[k - 1];
    const grown_m = bench_marks[k].misclosure_m - (k === 0 ? 0 : bench_marks[k - 1].misclosure_m);
    const missed_m = every ? (misclosure_m as number) : grown_m;
    const explained_m = NINETEEN_IN_TWENTY * sd_m * Math.sqrt(readingsBetween(points, intermediate, from, to));
    const because =
      every || bench_marks[k].accepted === false ? "class" : fits(grown_m, explained_m) ? null : "readings";
    return { from, to, misclosure_m: missed_m, carried_m: because === null ? 0 : Math.abs(missed_m), because };
  });
  const last = known.at(-1) ?? 0;
  if (last === points.length - 1) return closed;
  return [
    ...closed,
    { from: last, to: points.length - 1, misclosure_m: null, carried_m: slip_m, because: "unclosed" as const },
  ];
}

/** Makes levels as much less sure as their sections carry. @param held is each section held to the bench mark at its end? */
export function carryLevels(points: readonly LevelPoint[], sections: readonly BookSection[], held: boolean): void {
  let before_m = 0;
  for (const { from, to, carried_m, misclosure_m } of sections) {
    const fixed = held && misclosure_m !== null;
    for (const point of points.slice(from + 1, fixed ? to : to + 1))
      point.doubt_m = Math.hypot(point.doubt_m, before_m + carried_m);
    if (!fixed) before_m += carried_m;
  }
}

/** Makes the gradient between two places as much less sure as what is carried there. */
export function carriedBetween(sections: readonly BookSection[], a: number, b: number): number {
  return sections.reduce((most, { from, to, carried_m }) => (from < b && to > a ? Math.max(most, carried_m) : most), 0);
}

/**
 * Does a book that its own class did not refuse miss by more than fourth-order levelling allows, by which profiles are judged?
 * It was accepted by a looser class alone, or wants distances at its bench marks to be judged by any.
 */
export function missesFourthOrder({ accepted, checks, sections, points }: LevelsAnswer): boolean {
  if (accepted === false || checks === null) return false;
  const along_m = points.flatMap(({ distance_m }) => (distance_m === null ? [] : [distance_m]));
  if (along_m.length < 2) return false;
  const allowed_m = closingTolerance_m(Math.max(...along_m) - Math.min(...along_m));
  return sections.some(({ misclosure_m }) => misclosure_m !== null && !fits(misclosure_m, allowed_m));
}

/**
 * Why nobody may ride by the gradient between two places of an answer, counted from 0; "" where nothing says so.
 * Of a book that was not accepted, by none of it.
 */
export function unfitBetween(answer: LevelsAnswer, a: number, b: number): Unfit | "" {
  if ("received" in answer) return "by receiver";
  if (answer.accepted === false || missesFourthOrder(answer)) return "not accepted";
  return answer.sections.some(({ from, to, misclosure_m }) => misclosure_m === null && from < b && to > a)
    ? "not closed"
    : "";
}

/** Does the book carry more doubt than its readings make, and why? The gravest reason: not accepted, unclosed, beyond its readings. */
export function whyCarried({ sections, misclosure_m }: LevelsAnswer): BookSection["because"] {
  const has = (because: BookSection["because"]) => sections.some((each) => each.because === because);
  if (has("class")) return "class";
  if (misclosure_m === null && has("unclosed")) return "unclosed";
  return has("readings") ? "readings" : has("unclosed") ? "unclosed" : null;
}
