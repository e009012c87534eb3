import { InputError, shown } from "../errors.js";
import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";
import { STEEPEST, WARNED_SINE } from "../parts/track.js";
import { sound } from "../record/sound.js";
import { formatGradient } from "../units/format.js";
import { wrongDistance } from "./book.js";
import { carriedBetween, carryLevels, SLIP_m } from "./carried.js";
import type { BookSection, LevelPoint, LevelsAnswer } from "./levelled.js";

/** A place where an inclinometer lay on the rail, or a receiver told a height. */
export interface SlopeRow {
  distance_m: number;
  /** Rise along the rail from here to the next place, a share; the last one's goes for nothing. */
  slope: number;
  known_level_m: number | null;
  place: string;
  /** As it was read, with its unit, for whoever must find it in the book; a share in percent unless told. */
  written?: string;
}

/** The lengths that a digital inclinometer is sold to: a tenth of a degree, nineteen in twenty. */
const INCLINOMETER_sd = Math.tan((0.1 / NINETEEN_IN_TWENTY) * (Math.PI / 180));

function wrongInSlopes(rows: readonly SlopeRow[]): { path: string; message: string }[] {
  const wanted = `up to 1 in ${1 / STEEPEST} is wanted: are the units those of the heading?`;
  const problems: { path: string; message: string }[] = [];
  let before_m = Number.NEGATIVE_INFINITY;
  for (const [i, { distance_m, slope, written }] of rows.entries()) {
    const late = wrongDistance(distance_m, before_m);
    if (late !== undefined) problems.push({ path: `book.${i + 1}`, message: late });
    before_m = Math.max(before_m, distance_m);
    if (Math.abs(slope) <= STEEPEST) continue;
    const message = `a slope of ${written ?? `${shown(100 * slope)} %`} is steeper than any rail; ${wanted}`;
    problems.push({ path: `book.${i + 1}`, message });
  }
  if (rows.length < 2) problems.push({ path: "book.1", message: "one place is there, and two or more are wanted" });
  return problems;
}

/** Slopes that are steeper than clubs lay their lines, and so may be slips of the pen: each with its row, counted from 0. */
export const steepSlopes = (rows: readonly SlopeRow[]): { row: number; message: string }[] =>
  rows.slice(0, -1).flatMap(({ slope, written }, row) =>
    Math.abs(slope) > WARNED_SINE
      ? [
          {
            row,
            message: `a slope of ${written ?? `${shown(100 * slope)} %`} is ${formatGradient(Math.abs(slope))}, steeper than 1 in ${1 / WARNED_SINE}; is that so, or is its point or its unit wrong?`,
          },
        ]
      : [],
  );

/**
 * Levels from slopes, each held to the next place; what they miss a known level by is spread by distance. A tenth of a degree
 * is 1 in 570 of every slope.
 * @param sd of one slope, a share
 * @throws InputError
 */
export function levelsOfSlopes(rows: readonly SlopeRow[], sd = INCLINOMETER_sd): LevelsAnswer {
  const problems = wrongInSlopes(rows);
  if (problems.length > 0) throw new InputError(problems);
  const points: LevelPoint[] = [];
  let level_m = rows[0].known_level_m ?? 0;
  let variance_m2 = 0;
  for (const [i, row] of rows.entries()) {
    const before = rows[i - 1];
    const apart_m = before ? row.distance_m - before.distance_m : 0;
    const rise_m = before ? before.slope * apart_m : 0;
    level_m += rise_m;
    variance_m2 += (apart_m * sd) ** 2;
    points.push({
      place: row.place,
      distance_m: row.distance_m,
      level_m,
      doubt_m: NINETEEN_IN_TWENTY * Math.sqrt(variance_m2),
      doubt_of_readings_m: NINETEEN_IN_TWENTY * Math.sqrt(variance_m2),
      reduced_m: level_m,
      correction_m: 0,
      rise_m: before ? rise_m : null,
      setup: i,
      known_level_m: row.known_level_m,
      inverted: false,
    });
  }
  const last = points.findLastIndex(({ known_level_m }, i) => i > 0 && known_level_m !== null);
  const misclosure_m = last < 0 ? null : points[last].reduced_m - (points[last].known_level_m as number);
  const sections = sectionsOf(points, last, misclosure_m);
  if (misclosure_m !== null) {
    const from_m = rows[0].distance_m;
    const whole_m = rows[last].distance_m - from_m;
    for (const point of points) {
      const part = Math.min(1, ((point.distance_m as number) - from_m) / whole_m);
      point.correction_m = -misclosure_m * part;
      point.level_m = point.reduced_m + point.correction_m;
      // Held at both ends and loosest half way; beyond the last known level it is held at one.
      const beyond_m = Math.max(0, (point.distance_m as number) - rows[last].distance_m);
      const spacing_m = whole_m / last;
      const held_m2 = whole_m * spacing_m * part * (1 - part);
      point.doubt_of_readings_m = NINETEEN_IN_TWENTY * sd * Math.sqrt(held_m2 + beyond_m * spacing_m);
      point.doubt_m = point.doubt_of_readings_m;
    }
  }
  carryLevels(points, sections, true);
  return sound({
    points,
    gradients: points.slice(1).map((point, i) => {
      const [from_m, to_m] = [points[i].distance_m as number, point.distance_m as number];
      return {
        from_m,
        to_m,
        gradient_percent: (100 * (point.level_m - points[i].level_m)) / (to_m - from_m),
        doubt_percent: 100 * Math.hypot(NINETEEN_IN_TWENTY * sd, carriedBetween(sections, i, i + 1) / (to_m - from_m)),
        doubt_of_readings_percent: 100 * NINETEEN_IN_TWENTY * sd,
      };
    }),
    sections,
    unchecked: [],
    setups: 0,
    bench_marks:
      misclosure_m === null
        ? []
        : [
            {
              place: points[last].place,
              distance_m: points[last].distance_m,
              known_level_m: points[last].known_level_m as number,
              misclosure_m,
              allowed_m: null,
              accepted: null,
            },
          ],
    misclosure_m,
    allowed_m: null,
    accepted: null,
    adjusted_by: misclosure_m === null ? "none" : "distance",
    checks: null,
  });
}

/** Up to the last known level, and behind it, where nothing closes: as of a book. @param last its place, or less than 0 */
function sectionsOf(points: readonly LevelPoint[], last: number, misclosure_m: number | null): BookSection[] {
  const sections: BookSection[] = [];
  if (misclosure_m !== null) {
    // One slope that was misread may make all of what the others do not explain.
    const missed_m = Math.abs(misclosure_m);
    const carried_m = missed_m <= points[last].doubt_of_readings_m ? 0 : missed_m;
    sections.push({ from: 0, to: last, misclosure_m, carried_m, because: carried_m > 0 ? "readings" : null });
  }
  const [from, to] = [Math.max(0, last), points.length - 1];
  if (from === to) return sections;
  // Nobody misreads a slope by more than there is to read: as much as the most that one of them rises or falls.
  const slip_m = points.reduce((most, { rise_m }) => Math.max(most, Math.min(SLIP_m, Math.abs(rise_m ?? 0))), 0);
  const before_m = sections[0]?.carried_m ?? 0;
  return [...sections, { from, to, misclosure_m: null, carried_m: Math.max(slip_m, before_m), because: "unclosed" }];
}
