import type { Plan } from "../../train/plan.js";
import { waysOf } from "../ways.js";
import { brakesStep_s } from "./brakes.js";
import type { InCommon } from "./cases.js";
import { type Place, placesOf, speedOf_mps } from "./places.js";
import { type Rail, railsOf } from "./sets.js";
import { forceWanted_N } from "./sight.js";
import { type ToStop, toStop } from "./stop.js";

/** A train to be stopped from anywhere on its line, at the speeds it runs at; the hardest place first. */
export type Stopping = InCommon;

/** @param plan as stopping counts it (`forStopping`) */
export function stoppingOf(plan: Plan, sight_m: number): Stopping {
  const ways = waysOf(plan);
  const speed_mps = speedOf_mps(plan);
  const places = speed_mps > 0 ? hardestFirst(ways.flatMap((way) => placesOf(plan, way))) : [];
  return { plan, ways, places, speed_mps, sight_m, step_s: brakesStep_s(plan) };
}

/** Most downhill first: what it cannot stop from is found soon. */
export const hardestFirst = (places: readonly Place[]): Place[] =>
  [...places].sort((a, b) => a.gradient_percent - b.gradient_percent);

/** A driver comes in slowly to an end of the line that is in sight: those places are not judged. */
export const judged = ({ places, sight_m }: Stopping): Place[] => places.filter(({ ahead_m }) => ahead_m >= sight_m);

/** The steady brake at the rail that stops it within sight from everywhere on the worse rail, N; null where none would. */
export function brakeForLine_N(stopping: Stopping, rail: Rail = worseRail(stopping.plan)): number | null {
  const { plan, ways, speed_mps, sight_m, step_s } = stopping;
  const byWay = new Map(ways.map((way) => [way, toStop(plan, way, "none", rail, step_s)]));
  const ready = ({ way }: Place) => byWay.get(way) as ToStop;
  return forceWanted_N(ready, judged(stopping), speed_mps, sight_m);
}

export function worseRail(plan: Plan): Rail {
  const rails = railsOf(plan);
  return rails[rails.length - 1];
}
