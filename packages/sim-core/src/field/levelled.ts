/** A place of the book. */
export interface LevelPoint {
  place: string;
  distance_m: number | null;
  level_m: number;
  /** Nineteen in twenty lie within, from the reading error. */
  doubt_m: number;
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

export interface LevelsAnswer {
  points: LevelPoint[];
  gradients: { from_m: number; to_m: number; gradient_percent: number; doubt_percent: number }[];
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
