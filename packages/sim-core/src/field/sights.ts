import { WARNED_SINE } from "../parts/track.js";
import type { LevelPoint, UncheckedSight } from "./levelled.js";

const TIMES = 2;

/**
 * Intermediate sights, which nothing is sighted from: a misread one moves no other place, so that closing does not show it, however
 * far it is off. One is out of line where it alone makes the line steeper than clubs lay them, and the straight line between
 * its neighbours is not half as steep: common practice, no source.
 */
export function uncheckedSights(
  points: readonly LevelPoint[],
  intermediate: readonly boolean[],
  along: readonly number[],
): UncheckedSight[] {
  return points.flatMap(({ known_level_m, distance_m, place }, i) => {
    if (!intermediate[i] || known_level_m !== null) return [];
    const k = along.indexOf(i);
    const [before, after] = k < 0 ? [] : [along[k - 1], along[k + 1]];
    const steep =
      before === undefined || after === undefined
        ? null
        : {
            with: Math.max(Math.abs(slope(points, before, i)), Math.abs(slope(points, i, after))),
            without: Math.abs(slope(points, before, after)),
          };
    return [
      {
        point: i,
        place,
        distance_m,
        steepest_percent: steep && 100 * steep.with,
        without_percent: steep && 100 * steep.without,
        out_of_line: steep !== null && steep.with > WARNED_SINE && steep.with > TIMES * steep.without,
      },
    ];
  });
}

function slope(points: readonly LevelPoint[], a: number, b: number): number {
  return (
    (points[b].level_m - points[a].level_m) / ((points[b].distance_m as number) - (points[a].distance_m as number))
  );
}
