import { newNotes } from "../../errors.js";
import { createTrack, type Track } from "../../parts/track.js";
import type { Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";
import type { BrakeSet } from "../brakes/sets.js";
import { stopFrom, toStop } from "../brakes/stop.js";
import { askedOnce, isSameBut } from "./asked.js";
import type { Outing } from "./machine.js";

/** A stop on the level stretch, the brakes put on at the mark: all that it goes by. */
export interface StopAsked {
  readonly train: Train;
  /** Rise over distance of the stretch that the club calls level. */
  readonly level: number;
  readonly wind_mps: number;
  readonly set: BrakeSet;
  readonly speed_mps: number;
  readonly step_s: number;
}

/** From a speed to rest, m; null where it does not come to rest. */
export type StopOf = (stop: StopAsked) => number | null;

/** Stops of an outing's train, sound or not, by the same simulation as `brakes`; each is run once. */
export const stopsOf = ({ train: plan }: Outing): StopOf =>
  askedOnce(isSameStop, ({ train, level, wind_mps, set, speed_mps, step_s }) => {
    const way = { train, track: levelStretch(level), wind_mps, back: false };
    const atOnce: Plan = { ...plan, train, speed_mps, lever: Number.NaN, reaction_s: 0 };
    const rail = { rail: plan.rail, adhesion: train.adhesion };
    return stopFrom(toStop(atOnce, way, set, rail, step_s), train.length_m, speed_mps).distance_m;
  });

/** Unless the motor brakes its circuit is open from the mark on, and nothing of the circuit has a part in the stop. */
function isSameStop(a: StopAsked, b: StopAsked): boolean {
  if (!isSameBut(a, b, "train")) return false;
  if (a.set === "electric") return isSameBut(a.train, b.train);
  return (
    isSameBut(a.train.motor, b.train.motor, "resistance20_ohm", "flux_NmpA") &&
    isSameBut(
      ...([a.train, b.train] as const),
      ...(["motor", "controller", "motorPath_ohm", "motorCable_ohm"] as const),
      ...(["battery", "source_ohm", "batteryCable_ohm"] as const),
    )
  );
}

/** Long enough for anything to come to rest on, m. */
const LEVEL_m = 5000;

function levelStretch(sine: number): Track {
  const columns = {
    distance_m: [0, LEVEL_m],
    height_m: [0, sine * LEVEL_m],
    curvature_radpm: [0, 0],
    limit_mps: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    place: ["", ""],
  };
  return createTrack(columns, "end-to-end", false, newNotes());
}
