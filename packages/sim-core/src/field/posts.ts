import { linearRegression, median } from "simple-statistics";
import { type Fix, geodesic_m } from "./geodesic.js";
import type { Lap } from "./lap.js";
import { OFF_m, type Way } from "./way.js";

/** Heights are told at this spacing: short enough for a club's gradients, common practice, no source. */
const LEG_m = 50;

/** A place of the way, and the height told there. */
export interface PlaceAlong {
  along_m: number;
  height_m: number;
}

/** The way's places, or those of its first lap, counted from the first. */
export function placesOf(way: Way, heights_m: readonly number[], lap: Lap | undefined): PlaceAlong[] {
  const all = way.along_m.map((along_m, i) => ({ along_m, height_m: heights_m[i] }));
  if (!lap) return all;
  const { from, to, share } = lap;
  const [before, behind] = [all[to], all[to + 1] ?? all[to]];
  const height_m = before.height_m + share * (behind.height_m - before.height_m);
  const end = { along_m: reachedBy(way, lap) + lap.short_m, height_m };
  const inside = all.slice(from, to + 1).filter(({ along_m }) => along_m < end.along_m - OFF_m / 2);
  const start_m = all[from].along_m;
  return [...inside, end].map((place) => ({ ...place, along_m: place.along_m - start_m }));
}

/** How far along the way its lap ends, but for what it ends short. */
export const reachedBy = ({ along_m }: Way, { to, share }: Lap): number =>
  along_m[to] + share * ((along_m[to + 1] ?? along_m[to]) - along_m[to]);

/** At each place of the way the middle one of the heights that were told nearest to it, whatever one of them says. */
export function heightsOf(fixes: readonly Fix[], way: Way): number[] {
  const told: number[][] = way.fixes.map(() => []);
  let k = 0;
  for (const [i, fix] of fixes.entries()) {
    while (k + 1 < way.fixes.length && way.fixes[k + 1] <= i) k++;
    const next = fixes[way.fixes[k + 1]];
    const nearer = next && geodesic_m(next, fix) < geodesic_m(fixes[way.fixes[k]], fix) ? k + 1 : k;
    told[nearer].push(fix.height_m);
  }
  return told.map(median);
}

/** Those of the way's places that lie nearest to even steps, none nearer to the next than half a step. */
export function postsOf(places: readonly PlaceAlong[], least: number): PlaceAlong[] {
  const end = places[places.length - 1];
  const legs = Math.max(least, Math.round(end.along_m / LEG_m));
  const posts = [places[0]];
  let next = 0;
  for (let leg = 1; leg < legs; leg++) {
    const wanted_m = (leg * end.along_m) / legs;
    const off_m = (i: number) => Math.abs(places[i].along_m - wanted_m);
    while (next + 1 < places.length && off_m(next + 1) <= off_m(next)) next++;
    const { along_m } = places[next];
    if (along_m - posts[posts.length - 1].along_m >= LEG_m / 2 && end.along_m - along_m >= LEG_m / 2)
      posts.push(places[next]);
  }
  return [...posts, end];
}

/** At each post the height of the straight line through the heights around it. */
export function levelled(places: readonly PlaceAlong[], posts: readonly PlaceAlong[]): number[] {
  let [low, high] = [0, 0];
  return posts.map(({ along_m, height_m }) => {
    while (places[low].along_m < along_m - LEG_m / 2) low++;
    while (high < places.length && places[high].along_m <= along_m + LEG_m / 2) high++;
    if (high - low < 3) return height_m;
    return linearRegression(places.slice(low, high).map((place) => [place.along_m - along_m, place.height_m])).b;
  });
}
