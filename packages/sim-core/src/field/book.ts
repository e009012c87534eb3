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

/** What is wrong with a book, every row of it. */
export function wrongInBook(rows: readonly BookRow[]): BookProblem[] {
  const problems: BookProblem[] = [];
  const say = (row: number, message: string) => problems.push({ row, message });
  let furthest_m = Number.NEGATIVE_INFINITY;
  for (const [i, { distance_m, backsight_m, intermediate_m, foresight_m }] of rows.entries()) {
    const [first, last] = [i === 0, i === rows.length - 1];
    for (const reading_m of [backsight_m, intermediate_m, foresight_m])
      if (reading_m !== null && Math.abs(reading_m) > LONGEST_STAFF_m)
        say(i, `a reading of ${reading_m} m is longer than any staff; are the units those of the heading?`);
    if (first && backsight_m === null) say(i, "the book begins with a backsight, on the first place");
    if (first && (intermediate_m !== null || foresight_m !== null))
      say(i, "the first place has a backsight alone: nothing was sighted before it");
    if (!first && backsight_m === null && intermediate_m === null && foresight_m === null)
      say(i, "there is no intermediate sight and no foresight: the staff was not read here");
    if (intermediate_m !== null && foresight_m !== null)
      say(i, "an intermediate sight and a foresight stand side by side; one reading is one or the other");
    if (!first && backsight_m !== null && foresight_m === null)
      say(i, "a backsight has no foresight beside it: a change point is read from both set-ups");
    if (!first && !last && backsight_m === null && foresight_m !== null)
      say(i, "a foresight ends its set-up, and no backsight begins the next");
    if (last && !first && backsight_m !== null) say(i, "the book ends with a backsight from which nothing is sighted");
    if (distance_m === null) continue;
    if (distance_m <= furthest_m) say(i, `the distance, ${distance_m} m, is no further on than the one before`);
    furthest_m = Math.max(furthest_m, distance_m);
  }
  if (rows.length < 2) say(0, "two places or more are wanted");
  return problems;
}
