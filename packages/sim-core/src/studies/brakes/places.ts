import { targetSpeed_mps } from "../../driver/driver.js";
import { G_mps2 } from "../../parts/constants.js";
import { onTheLine, type Track } from "../../parts/track.js";
import { summariser } from "../../record/summary.js";
import { run } from "../../run.js";
import { bendsFelt_m, gravityAt_N } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import { startWorking } from "../../working.js";
import { leaningTo, type Way } from "../ways.js";

/** A place at which the driver should act. */
export interface Place {
  readonly way: Way<Train>;
  /** Of the head, along the way it runs; and as people count it, from the first post. */
  readonly along_m: number;
  readonly chainage_m: number;
  /** As the whole train feels it. */
  readonly gradient_percent: number;
  /** The least limit under the train; Infinity where there is none, or the lever is held, which knows no limits. */
  readonly limit_mps: number;
  /** Line left ahead; Infinity on a circuit. */
  readonly ahead_m: number;
}

/** Places are no further apart than this, m, unless there would be more than so many of them. */
const SPACING_m = 5;
const MOST_PLACES = 1000;
/** A survey with posts closer than this, m, has places for some of them. */
const POSTS_APART_m = 1;

/** Every train's length or 5 m, whichever is less, and every change of gradient; once the whole train is on the line. */
export function placesOf(plan: Plan, way: Way<Train>): Place[] {
  const { train, track } = way;
  const held = Number.isNaN(plan.speed_mps);
  const free: Plan = { ...plan, train, track, speed_mps: Number.POSITIVE_INFINITY };
  return headsAt_m(train, track).map((along_m) => ({
    way,
    along_m,
    chainage_m: way.back ? track.length_m - along_m : along_m,
    gradient_percent: gradientAt_percent(way, along_m),
    limit_mps: held ? Number.POSITIVE_INFINITY : targetSpeed_mps(startWorking(free, { chainage_m: along_m })),
    ahead_m: track.kind === "circuit" ? Number.POSITIVE_INFINITY : track.length_m - along_m,
  }));
}

/** As the whole train feels it with its head there, uphill +. */
export const gradientAt_percent = ({ train, track }: Way<Train>, along_m: number): number =>
  (100 * gravityAt_N(train, track, along_m)) / (train.mass_kg * G_mps2);

/** The same way, leaning up or down, as steep as its survey leaves open at whatever place is asked. */
export function steeperOn(way: Way<Train>): (along_m: number) => Way<Train> {
  const leanings = [leaningTo(way, -1), leaningTo(way, 1)];
  return (along_m) => {
    const steep = (each: Way<Train>) => Math.abs(gradientAt_percent(each, along_m));
    return leanings.reduce((a, b) => (steep(b) > steep(a) ? b : a));
  };
}

function headsAt_m(train: Train, track: Track): number[] {
  const first_m = track.kind === "circuit" ? 0 : train.length_m;
  const least_m = (track.length_m - first_m) / MOST_PLACES;
  const spacing_m = Math.max(least_m, Math.min(train.length_m, SPACING_m));
  const steps = Math.ceil((track.length_m - first_m) / spacing_m);
  const even_m = Array.from({ length: steps }, (_, i) => first_m + i * spacing_m);
  const apart_m = Math.max(least_m, POSTS_APART_m);
  const changes_m: number[] = [];
  for (const post_m of track.distance_m) {
    const clear = changes_m.length === 0 || post_m - changes_m[changes_m.length - 1] >= apart_m;
    if (clear && post_m > first_m && post_m < track.length_m) changes_m.push(post_m);
  }
  return [...new Set([...even_m, ...changes_m])].sort((a, b) => a - b);
}

/** Where gravity may pull the standing train hardest: between two couplings' passing a post it changes evenly. */
export function steepestPlace_m(way: Way<Train>): number {
  const { train, track } = way;
  const leanings = [leaningTo(way, -1).track, leaningTo(way, 1).track];
  const pull_N = (head_m: number) => Math.max(...leanings.map((each) => Math.abs(gravityAt_N(train, each, head_m))));
  const steepest_m = bendsFelt_m(train, track).reduce((most, head_m) =>
    pull_N(head_m) > pull_N(most) ? head_m : most,
  );
  return onTheLine(track, steepest_m);
}

/** The plan's speed; where it holds a lever, the fastest that takes the train anywhere in one lap. */
export function speedOf_mps(plan: Plan): number {
  if (!Number.isNaN(plan.speed_mps)) return plan.speed_mps;
  const { observer, summary } = summariser();
  run({ ...plan, stops: [] }, { laps: 1, observers: [observer] });
  return summary.top_speed_mps;
}
