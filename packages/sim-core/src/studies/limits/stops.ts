import type { Brake } from "../../parts/brakes.js";
import type { Train } from "../../train/train.js";
import { howBad } from "../brakes/cases.js";
import type { Place } from "../brakes/places.js";
import { actsAfter_s, type Rail } from "../brakes/sets.js";
import { type Stopped, stopFrom, type ToStop, toStop } from "../brakes/stop.js";
import { judged, type Stopping } from "../brakes/stopping.js";
import type { Way } from "../ways.js";
import type { StopRow, Who } from "./answer.js";

/** When each brake goes on, s after the driver acts; NaN where it does not. Whose brakes a person's are, the files say. */
function after_s(brake: Brake, who: Who): number {
  if (!brake.service) return Number.NaN;
  if (who === "dead_man") return brake.onDeadMan ? 0 : Number.NaN;
  const acts = who === "everybody" || who === brake.by;
  return acts ? actsAfter_s(brake) : Number.NaN;
}

export const hasBrake = ({ brakes }: Train, who: Who): boolean =>
  who === "nobody" || brakes.some((brake) => !Number.isNaN(after_s(brake, who)));

/** Whose brakes may be counted on: the driver's, or with none of these the guard's. */
export const countedOn = (train: Train): Who =>
  hasBrake(train, "driver") ? "driver" : hasBrake(train, "guard") ? "guard" : "nobody";

/** The stop from one place, by somebody, on a rail. */
export type Stop = (place: Place, speed_mps: number, within_m?: number) => Stopped;

export function stopBy({ plan, ways, step_s }: Stopping, who: Who, rail: Rail): Stop {
  // Nobody thinks before a dead-man's switch acts.
  const own = who === "dead_man" ? { ...plan, reaction_s: 0 } : plan;
  const byWay = new Map(
    ways.map((way): [Way<Train>, ToStop] => {
      const ready = toStop(own, way, "all", rail, step_s);
      return [way, { ...ready, after_s: way.train.brakes.map((brake) => after_s(brake, who)) }];
    }),
  );
  return (place, speed_mps, within_m) => {
    const ready = byWay.get(place.way) as ToStop;
    const at_mps = Math.min(speed_mps, place.limit_mps);
    // The driver keeps to the speed it is at.
    const steady = Number.isNaN(ready.plan.speed_mps)
      ? ready
      : { ...ready, plan: { ...ready.plan, speed_mps: at_mps } };
    return stopFrom(steady, place.along_m, at_mps, within_m);
  };
}

/** Within sight, or before the end of a line that is nearer than that. */
export const within_m = ({ ahead_m }: Place, sight_m: number): number => Math.min(sight_m, ahead_m);

/** The first place from which it does not stop within sight, the hardest asked first. */
export const failsAt = (stopping: Stopping, who: Who, rail: Rail): Place | undefined => {
  const stop = stopBy(stopping, who, rail);
  return judged(stopping).find((place) => !stop(place, stopping.speed_mps, stopping.sight_m).stops);
};

/** The longest stop of everybody in turn. */
export function stopRows(stopping: Stopping, rails: readonly Rail[]): StopRow[] {
  const who = ["nobody", "driver", "guard", "dead_man"] as const;
  const { train } = stopping.ways[0];
  const worse = rails[rails.length - 1];
  const rows = who.flatMap((each) =>
    (each === "nobody" ? [worse] : rails).map((rail) => longest(stopping, each, rail)),
  );
  if (hasBrake(train, "driver") && hasBrake(train, "guard"))
    return [...rows, ...rails.map((rail) => longest(stopping, "everybody", rail))];
  // One person's brakes are everybody's.
  const all = rows.filter(({ who: each }) => each === countedOn(train) && each !== "nobody");
  return [...rows, ...all.map((row): StopRow => ({ ...row, who: "everybody" }))];
}

function longest(stopping: Stopping, who: Who, rail: Rail): StopRow {
  const none: StopRow = {
    who,
    rail: rail.rail,
    outcome: "no_brake",
    distance_m: null,
    from_m: null,
    direction: null,
    speed_mps: null,
    top_speed_mps: null,
    greatest_speed_mps: null,
  };
  const { speed_mps, sight_m } = stopping;
  const places = judged(stopping);
  if (!hasBrake(stopping.ways[0].train, who) || places.length === 0) return none;
  const stop = stopBy(stopping, who, rail);
  let worst: { place: Place; stopped: Stopped; bad: number } | undefined;
  for (const place of places) {
    const stopped = stop(place, speed_mps);
    const bad = howBad(stopped, Math.min(speed_mps, place.limit_mps), sight_m);
    if (!worst || bad > worst.bad) worst = { place, stopped, bad };
  }
  if (!worst) return none;
  const { place, stopped } = worst;
  const { distance_m } = stopped;
  return {
    ...none,
    outcome: distance_m !== null && distance_m > sight_m ? "beyond_sight" : stopped.outcome,
    distance_m,
    from_m: place.chainage_m,
    direction: place.way.back ? "back" : "out",
    speed_mps: Math.min(speed_mps, place.limit_mps),
    top_speed_mps: stopped.top_speed_mps,
    greatest_speed_mps: greatestFromAll(stop, places, speed_mps, sight_m),
  };
}

function greatestFromAll(stop: Stop, places: readonly Place[], speed_mps: number, sight_m: number): number | null {
  let most_mps = speed_mps;
  for (const place of places) {
    most_mps = Math.min(most_mps, greatestFrom(stop, place, most_mps, sight_m));
    if (most_mps === 0) return null;
  }
  return most_mps;
}

/** Slower than this nobody drives, m/s; speeds are found to the other. */
const CREEP_mps = 0.1;
const WITHIN_mps = 0.01;

/** The greatest speed up to `most_mps` from which it stops within a distance of a place; 0 where it does from none. */
export function greatestFrom(stop: Stop, place: Place, most_mps: number, sight_m: number): number {
  const passes = (speed_mps: number) => stop(place, speed_mps, sight_m).stops;
  if (passes(most_mps)) return most_mps;
  if (!passes(CREEP_mps)) return 0;
  let low = CREEP_mps;
  for (let high = most_mps; high - low > WITHIN_mps; ) {
    const middle = (low + high) / 2;
    if (passes(middle)) low = middle;
    else high = middle;
  }
  return low;
}
