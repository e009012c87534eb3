import type { Rail } from "../brakes/sets.js";
import { hardestFirst, type Stopping } from "../brakes/stopping.js";
import type { SpeedRow } from "./answer.js";
import { countedOn, greatestFrom, stopBy, within_m } from "./stops.js";

/**
 * How fast it may go on each stretch between named places: no faster than the plan, the line's own limits, and what
 * stops within sight there (at an end of the line, before it) with the brakes that may be counted on. Neighbours with one
 * speed for one reason are one stretch; without a brake to count on there is no speed anywhere.
 */
export function speedRows(stopping: Stopping, rail: Rail): SpeedRow[] {
  const { ways, places, speed_mps, sight_m } = stopping;
  const who = countedOn(ways[0].train);
  if (who === "nobody")
    return ways.map(({ back, track: { length_m } }) => ({
      direction: back ? "back" : "out",
      from_m: back ? length_m : 0,
      to_m: back ? 0 : length_m,
      speed_mps: 0,
      by: "no_brake",
      at_m: back ? length_m : 0,
    }));
  const stop = stopBy(stopping, who, rail);
  return ways.flatMap((way) => {
    const own = places.filter((place) => place.way === way).sort((a, b) => a.along_m - b.along_m);
    const rows: SpeedRow[] = [];
    for (const { from_m, to_m } of stretches(way.track.distance_m, way.track.place, way.track.length_m)) {
      const within = own.filter(({ along_m }) => along_m >= from_m && along_m < to_m);
      const [first] = within;
      if (!first) continue;
      let row: SpeedRow = {
        direction: way.back ? "back" : "out",
        from_m: way.back ? way.track.length_m - from_m : from_m,
        to_m: way.back ? way.track.length_m - to_m : to_m,
        speed_mps,
        by: "plan",
        at_m: first.chainage_m,
      };
      for (const place of hardestFirst(within)) {
        if (place.limit_mps < row.speed_mps)
          row = { ...row, speed_mps: place.limit_mps, by: "line", at_m: place.chainage_m };
        const seen_mps = greatestFrom(stop, place, row.speed_mps, within_m(place, sight_m));
        if (seen_mps < row.speed_mps) row = { ...row, speed_mps: seen_mps, by: "sight", at_m: place.chainage_m };
        if (row.speed_mps === 0) break;
      }
      const last = rows.at(-1);
      if (last && last.speed_mps === row.speed_mps && last.by === row.by) last.to_m = row.to_m;
      else rows.push(row);
    }
    return rows;
  });
}

/** From named post to named post; the whole line where fewer than two are named. */
function stretches(distance_m: ArrayLike<number>, place: readonly string[], length_m: number) {
  const posts = Array.from(distance_m, (at_m, i) => ({ at_m, name: place[i] })).filter(({ name }) => name);
  const ends = [...new Set([0, ...posts.map(({ at_m }) => at_m), length_m])].sort((a, b) => a - b);
  return ends.slice(1).map((to_m, i) => ({ from_m: ends[i], to_m }));
}
