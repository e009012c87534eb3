import { shown } from "../errors.js";

/** A row of a levelling book: one place of the staff. Inverted readings are negative; a change point has both sights. */
export interface BookRow {
  /** Along the line; null where the staff stood beside it. */
  distance_m: number | null;
  backsight_m: number | null;
  intermediate_m: number | null;
  foresight_m: number | null;
  /** Of a bench mark. */
  known_level_m: number | null;
  place: string;
}

/** A row that will not do, by its place in the book. */
export interface BookProblem {
  row: number;
  message: string;
}

/** No staff is longer, m. */
const LONGEST_STAFF_m = 5.5;
/** Of the ground: below its lowest and above its highest place, m. */
const LEVELS_m = [-500, 9000] as const;
/** No line that is levelled by hand is longer, m. */
const LONGEST_LINE_m = 100_000;
/** A profile is written to the millimetre. */
const LEAST_STEP_m = 0.001;
/** Shorter readings all along, told finer than any staff, were made in a larger unit, m. */
const SMALL_m = 0.02;
const FINEST_m = 0.0001;

/** What is wrong with a book, every row of it. */
export function wrongInBook(rows: readonly BookRow[]): BookProblem[] {
  const problems: BookProblem[] = [];
  let before_m = Number.NEGATIVE_INFINITY;
  for (const [i, row] of rows.entries()) {
    const say = (message: string) => problems.push({ row: i, message });
    for (const [name, reading_m] of readingsOf(row))
      if (Math.abs(reading_m) > LONGEST_STAFF_m)
        say(
          `${name} of ${shown(reading_m, "m")} is longer than any staff, of which ${LONGEST_STAFF_m} m is the longest; are the units those of the heading?`,
        );
    const misplaced = wrongInRow(row, i === 0, i === rows.length - 1);
    if (misplaced !== undefined) say(misplaced);
    const { known_level_m, distance_m } = row;
    if (known_level_m !== null && (known_level_m < LEVELS_m[0] || known_level_m > LEVELS_m[1]))
      say(
        `a known level of ${shown(known_level_m, "m")}; from ${LEVELS_m[0]} to ${LEVELS_m[1]} m is wanted: are the units those of the heading?`,
      );
    if (distance_m === null) continue;
    const wrong = wrongDistance(distance_m, before_m);
    if (wrong !== undefined) say(wrong);
    before_m = Math.max(before_m, distance_m);
  }
  if (rows.length < 2) problems.push({ row: 0, message: `${rows.length} place is there, and two or more are wanted` });
  const readings_m = rows.flatMap((row) => readingsOf(row).map(([, reading_m]) => Math.abs(reading_m)));
  const coarse = readings_m.every((each) => each < SMALL_m) && readings_m.some((each) => !isWhole(each / FINEST_m));
  if (coarse)
    problems.push({
      row: 0,
      message: `no reading is longer than ${shown(1000 * readings_m.reduce((a, b) => Math.max(a, b), 0), "mm")}, and they are told finer than a staff can be read; are the units those of the heading?`,
    });
  return problems;
}

const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 0.01;

/** Why a distance does not follow the furthest one before it; nothing where it does. */
export function wrongDistance(distance_m: number, before_m: number): string | undefined {
  if (Math.abs(distance_m) > LONGEST_LINE_m)
    return `the distance is ${shown(distance_m, "m")}, and a line of ${LONGEST_LINE_m / 1000} km at most is wanted; are the units those of the heading?`;
  return distance_m < before_m + LEAST_STEP_m
    ? `the distance is ${shown(distance_m, "m")}, no further on than the ${shown(before_m, "m")} before it; rows follow each other along the rail`
    : undefined;
}

/** The readings of a row, and what each is called. */
function readingsOf({ backsight_m, intermediate_m, foresight_m }: BookRow): [name: string, reading_m: number][] {
  const named: [string, number | null][] = [
    ["a backsight", backsight_m],
    ["an intermediate sight", intermediate_m],
    ["a foresight", foresight_m],
  ];
  return named.flatMap(([name, reading_m]) => (reading_m === null ? [] : [[name, reading_m] as [string, number]]));
}

/** What stands in a wrong column, or is missing; nothing where all is well. */
function wrongInRow(row: BookRow, first: boolean, last: boolean): string | undefined {
  const { backsight_m, intermediate_m, foresight_m } = row;
  const found = readingsOf(row)
    .map(([name, reading_m]) => `${name} of ${shown(reading_m, "m")}`)
    .join(" and ");
  if (first) {
    if (backsight_m === null)
      return `the book begins with a backsight on the first place, and there is ${found || "no reading"}`;
    return intermediate_m === null && foresight_m === null
      ? undefined
      : `${found} on the first place, where a backsight alone is wanted: nothing was sighted before it`;
  }
  if (found === "")
    return "there is no intermediate sight and no foresight: the staff was not read here, and one of them is wanted";
  if (intermediate_m !== null && foresight_m !== null)
    return `${found} stand side by side; a reading is an intermediate sight or a foresight`;
  if (backsight_m !== null && intermediate_m !== null)
    return `${found}: a backsight has no foresight beside it. Is the intermediate sight the foresight of this change point?`;
  if (backsight_m !== null && foresight_m === null)
    return `${found}, and a backsight has no foresight beside it: a change point is read from both set-ups, in one row`;
  if (backsight_m === null && foresight_m !== null && !last)
    return `${found} ends its set-up, and no backsight begins the next. Is it an intermediate sight?`;
  return backsight_m !== null && last
    ? `${found}: the book ends with a backsight from which nothing is sighted; a foresight alone is wanted`
    : undefined;
}
