import { InputError } from "../errors.js";
import { sound } from "../record/sound.js";
import type { Fix } from "./geodesic.js";
import { type Lap, lapOf } from "./lap.js";
import type { LevelPoint, LevelsAnswer } from "./levelled.js";
import { heightsOf, levelled, type PlaceAlong, placesOf, postsOf, reachedBy } from "./posts.js";
import { type Way, type WayProblem, wayThrough } from "./way.js";

export interface FixesOptions {
  /** Is what a circuit misses its first place by spread? By distance unless told. */
  adjust?: "distance" | "none";
  /** How far off the difference of two heights within a hundred metres may be, nineteen in twenty, m. */
  difference_m?: number;
}

/** How a receiver's fixes were taken, and what cannot be told by them. */
export interface Received {
  fixes: number;
  /** Of which the way is drawn. */
  places: number;
  /** Two heights within a hundred metres of each other: nineteen in twenty, m. */
  difference_m: number;
  /** How far apart places must be for a rise of 1 in 100 to be told from level, m. */
  one_in_100_told_over_m: number;
  /** Gradients that may as well go the other way. */
  untold: number;
  /** What of the way is the profile, where it comes round to itself: one lap. */
  lap: { before_m: number; length_m: number; after_m: number } | null;
}

export type FixesAnswer = LevelsAnswer & { received: Received };

/**
 * Of one height: GPS Standard Positioning Service Performance Standard, 5th edition (April 2020), table 3.8-3, vertically,
 * nineteen in twenty, mean of the globe. It holds under an open sky.
 */
const HEIGHT_m = 13;
/** Neighbouring fixes err together, so that the difference of their heights is better: common practice, no source. */
const DIFFERENCE_m = 3;
const TOGETHER_m = 100;

/**
 * Levels of the heights of a receiver, every fifty metres or so along the way. The doubt of a difference of heights grows as the
 * root of how far apart they are, up to that of two heights that have nothing to do with each other.
 * @throws InputError with the fix at which the way will not do: `fixes.3`
 */
export function levelsOfFixes(fixes: readonly Fix[], options: FixesOptions = {}): FixesAnswer {
  const problems: WayProblem[] = [];
  if (fixes.length < 2) problems.push({ fix: 0, message: "there is one fix alone; a way along the line is wanted" });
  const way = problems.length > 0 ? undefined : wayThrough(fixes, problems);
  if (!way) throw new InputError(problems.map(({ fix, message }) => ({ path: `fixes.${fix + 1}`, message })));
  const heights_m = heightsOf(fixes, way);
  const lap = lapOf(fixes, way);
  const places = placesOf(way, heights_m, lap);
  const difference_m = options.difference_m ?? DIFFERENCE_m;
  const { points, misclosure_m } = pointsOf(places, lap !== undefined, options.adjust ?? "distance", difference_m);
  const gradients = points.slice(1).map((point, i) => {
    const [from_m, to_m] = [points[i].distance_m as number, point.distance_m as number];
    const doubt_percent = (100 * differenceOver(to_m - from_m, difference_m)) / (to_m - from_m);
    return {
      from_m,
      to_m,
      gradient_percent: (100 * (point.level_m - points[i].level_m)) / (to_m - from_m),
      doubt_percent,
      doubt_of_readings_percent: doubt_percent,
    };
  });
  return sound({
    points,
    gradients,
    sections: [],
    unchecked: [],
    setups: 0,
    bench_marks: [],
    misclosure_m,
    allowed_m: null,
    accepted: null,
    adjusted_by: misclosure_m === null || options.adjust === "none" ? "none" : "distance",
    checks: null,
    received: {
      fixes: fixes.length,
      places: way.fixes.length,
      difference_m,
      one_in_100_told_over_m: toldOver(0.01, difference_m),
      untold: gradients.filter((each) => Math.abs(each.gradient_percent) <= each.doubt_percent).length,
      lap: lap ? cutOf(way, lap) : null,
    },
  });
}

const most = (difference_m: number): number => Math.max(difference_m, Math.SQRT2 * HEIGHT_m);

/** Nineteen in twenty, of two heights so far apart. */
function differenceOver(apart_m: number, difference_m: number): number {
  return Math.min(most(difference_m), difference_m * Math.sqrt(Math.max(1, apart_m / TOGETHER_m)));
}

/** Over what distance a gradient is more than the doubt of it. */
function toldOver(gradient: number, difference_m: number): number {
  const near_m = difference_m / gradient;
  if (near_m <= TOGETHER_m) return near_m;
  return Math.min(near_m ** 2 / TOGETHER_m, most(difference_m) / gradient);
}

function cutOf(way: Way, lap: Lap): Received["lap"] {
  const [before_m, reached_m] = [way.along_m[lap.from], reachedBy(way, lap)];
  return {
    before_m,
    length_m: reached_m + lap.short_m - before_m,
    after_m: way.along_m[way.along_m.length - 1] - reached_m,
  };
}

function pointsOf(
  places: readonly PlaceAlong[],
  round: boolean,
  adjust: "distance" | "none",
  difference_m: number,
): { points: LevelPoint[]; misclosure_m: number | null } {
  const length_m = places[places.length - 1].along_m;
  const posts = postsOf(places, round ? 2 : 1);
  const heights_m = levelled(places, posts);
  const misclosure_m = round ? heights_m[heights_m.length - 1] - heights_m[0] : null;
  const points = posts.map(({ along_m }, i): LevelPoint => {
    const correction_m = misclosure_m === null || adjust === "none" ? 0 : -misclosure_m * (along_m / length_m);
    // A circuit's places are near its first place by either way round.
    const apart_m = round && adjust !== "none" ? Math.min(along_m, length_m - along_m) : along_m;
    const doubt_m = apart_m === 0 ? 0 : differenceOver(apart_m, difference_m);
    return {
      place: "",
      distance_m: along_m,
      level_m: heights_m[i] + correction_m,
      doubt_m,
      doubt_of_readings_m: doubt_m,
      reduced_m: heights_m[i],
      correction_m,
      rise_m: i === 0 ? null : heights_m[i] - heights_m[i - 1],
      setup: 0,
      known_level_m: null,
      inverted: false,
    };
  });
  return { points, misclosure_m };
}
