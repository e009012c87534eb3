/** A place of the book. */
export interface LevelPoint {
  place: string;
  distance_m: number | null;
  level_m: number;
  /** Nineteen in twenty lie within: from the error of readings, and what the book misses its bench marks by beyond that. */
  doubt_m: number;
  /** The part of it that is the readings' own. */
  doubt_of_readings_m: number;
  /** As read, before the misclosure is spread. */
  reduced_m: number;
  correction_m: number;
  /** Against the place before; the first has none. */
  rise_m: number | null;
  /** Set-up from which it was sighted, counted from 1. */
  setup: number;
  known_level_m: number | null;
  /** Was it read with the staff upside down? Then it lies above the line, and is no place of the rail. */
  inverted: boolean;
}

/** What surveyors check at the foot of a page. */
export interface BookChecks {
  backsights_m: number;
  foresights_m: number;
  rises_m: number;
  falls_m: number;
  last_less_first_m: number;
  /** Are all three differences one? */
  agree: boolean;
}

/** A place whose level is known, sighted on the way. */
export interface BenchMark {
  place: string;
  distance_m: number | null;
  known_level_m: number;
  misclosure_m: number;
  /** Of what the misclosure has grown by since the bench mark before. */
  allowed_m: number | null;
  accepted: boolean | null;
}

/** Between places of the rail that follow each other. */
export interface LevelGradient {
  from_m: number;
  to_m: number;
  gradient_percent: number;
  /** Nineteen in twenty lie within, as of levels. */
  doubt_percent: number;
  /** The part of it that is the readings' own. */
  doubt_of_readings_percent: number;
}

/** The book from one bench mark to the next, or behind the last, where it closes on nothing. */
export interface BookSection {
  /** Its first and last place, counted from 0. */
  from: number;
  to: number;
  /** Null where nothing closes it. */
  misclosure_m: number | null;
  /** What any two of its places may be off by beyond their readings' error. */
  carried_m: number;
  /** Misses by more than its class allows, or than its readings explain, or is closed by nothing. */
  because: "class" | "readings" | "unclosed" | null;
}

/** An intermediate sight, which closing does not check. */
export interface UncheckedSight {
  /** Its place among the points, counted from 0. */
  point: number;
  place: string;
  distance_m: number | null;
  /** The steeper of the gradients beside it, and that of the straight line between its neighbours; null at an end, or off the rail. */
  steepest_percent: number | null;
  without_percent: number | null;
  /** Does it alone make the line steeper than 1 in 25, and twice as steep as it would be without it? */
  out_of_line: boolean;
}

export interface LevelsAnswer {
  points: LevelPoint[];
  gradients: LevelGradient[];
  /** None where there is no book. */
  sections: BookSection[];
  /** What closing does not check; none where there is no book. */
  unchecked: UncheckedSight[];
  setups: number;
  /** Of each later bench mark, what the book finds less what it is known to be. */
  bench_marks: BenchMark[];
  /** At the last bench mark; null where the book closes on nothing. */
  misclosure_m: number | null;
  allowed_m: number | null;
  /** Of the whole book, and of each bench mark in it. */
  accepted: boolean | null;
  adjusted_by: "distance" | "setups" | "none";
  /** Null where there is no book to add up. */
  checks: BookChecks | null;
}
