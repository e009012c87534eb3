import { type GlobePlace, geodesic_m } from "./geodesic.js";

/** A way that will not do, by its fix. */
export interface WayProblem {
  fix: number;
  message: string;
}

/** The fixes that a way is drawn through, and how far along each of them lies. */
export interface Way {
  /** Places in the list of fixes, in order. */
  fixes: number[];
  along_m: number[];
}

/**
 * A fix is off by no more than this, nineteen in twenty: GPS Standard Positioning Service Performance Standard, 5th edition
 * (April 2020), table 3.8-3, horizontally, mean of the globe. Fixes nearer than that to each other are one place.
 */
export const OFF_m = 8;
/** Running back over less than this is standing about or shunting: common practice, no source. */
const SHUNTING_m = 5 * OFF_m;
/** A receiver that is without signal for less is forgiven: common practice, no source. */
const GAP_m = 200;
const GAP_STEPS = 20;
/** A sharper bend is no railway: the cosine of 135°. */
const TURNED_BACK = -Math.SQRT1_2;

const shown = (length_m: number): string =>
  length_m < 2000 ? `${Math.round(length_m)} m` : `${(length_m / 1000).toFixed(1)} km`;

/** Metres east and north of a place, near enough within some kilometres: only for what lies near what. */
export function flatFrom({ lat_deg, lon_deg }: GlobePlace): (place: GlobePlace) => [east_m: number, north_m: number] {
  const DEGREE_m = 111_195;
  const narrow = Math.cos((lat_deg * Math.PI) / 180);
  return (place) => {
    const east_deg = ((place.lon_deg - lon_deg + 540) % 360) - 180;
    return [DEGREE_m * narrow * east_deg, DEGREE_m * (place.lat_deg - lat_deg)];
  };
}

/** Draws the way through fixes that lie further apart than they are off; what will not do goes to `problems`. */
export function wayThrough(fixes: readonly GlobePlace[], problems: WayProblem[]): Way | undefined {
  findGap(fixes, problems);
  if (problems.length > 0) return undefined;
  const kept = thinned(fixes, problems);
  if (problems.length > 0) return undefined;
  if (kept.length < 2) {
    const message = `all ${fixes.length} fixes lie within ${OFF_m} m, which is as far as a fix may be off: the receiver stood still; a way along the line is wanted`;
    problems.push({ fix: 0, message });
    return undefined;
  }
  const along_m = [0];
  for (let i = 1; i < kept.length; i++) along_m.push(along_m[i - 1] + geodesic_m(fixes[kept[i - 1]], fixes[kept[i]]));
  return { fixes: kept, along_m };
}

function findGap(fixes: readonly GlobePlace[], problems: WayProblem[]): void {
  const steps_m = fixes.slice(1).map((fix, i) => geodesic_m(fixes[i], fix));
  const usual_m = [...steps_m].sort((a, b) => a - b)[Math.floor(steps_m.length / 2)] ?? 0;
  const most_m = Math.max(GAP_m, GAP_STEPS * usual_m);
  const gap = steps_m.findIndex((step_m) => step_m > most_m);
  if (gap < 0) return;
  const message = `this fix lies ${shown(steps_m[gap])} from the one before, and no more than ${shown(most_m)} are taken for one run; take out fixes that are wrong, and keep one run in the file`;
  problems.push({ fix: gap + 1, message });
}

/** What was run back over is taken off again, so that a receiver that wanders while it stands adds nothing. */
function thinned(fixes: readonly GlobePlace[], problems: WayProblem[]): number[] {
  const flat = flatFrom(fixes[0]);
  const at = fixes.map(flat);
  const apart = (a: number, b: number) => Math.hypot(at[a][0] - at[b][0], at[a][1] - at[b][1]);
  const kept = [0];
  let furthest = { count: 1, fix: 0 };
  for (let i = 1; i < fixes.length; i++) {
    const [back, last] = [kept.at(-2), kept[kept.length - 1]];
    if (apart(last, i) < OFF_m) continue;
    if (back !== undefined && apart(back, i) < OFF_m) kept.pop();
    else kept.push(i);
    const bend = kept.length > 2 ? bendAt(at, kept) : 1;
    if (kept.length > furthest.count) furthest = { count: kept.length, fix: i };
    const undone_m = (furthest.count - kept.length) * OFF_m;
    if (bend > TURNED_BACK && undone_m < SHUNTING_m) continue;
    const fix = bend > TURNED_BACK ? furthest.fix : kept[kept.length - 2];
    const message = `the way turns back on itself here, at fix ${fix + 1} of ${fixes.length}; one run in one direction is wanted: cut the track before or behind this fix`;
    problems.push({ fix, message });
    return kept;
  }
  const end = fixes.length - 1;
  const last = kept[kept.length - 1];
  if (last === end || kept.length < 2) return kept;
  // The end of the line is where the receiver ended.
  return apart(last, end) < OFF_m / 2 ? [...kept.slice(0, -1), end] : [...kept, end];
}

/** Cosine of the bend at the place before the last. */
function bendAt(at: readonly [number, number][], kept: readonly number[]): number {
  const [a, b, c] = kept.slice(-3).map((i) => at[i]);
  const [east, north] = [b[0] - a[0], b[1] - a[1]];
  const [onEast, onNorth] = [c[0] - b[0], c[1] - b[1]];
  return (east * onEast + north * onNorth) / (Math.hypot(east, north) * Math.hypot(onEast, onNorth));
}
