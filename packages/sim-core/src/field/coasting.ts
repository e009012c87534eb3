import { driveDrag_N } from "../drive/pull.js";
import { onTheLine, stretchAt, type Track } from "../parts/track.js";
import type { Plan } from "../train/plan.js";
import { surveyedFor } from "../train/surveyed.js";
import type { CoastLine } from "./coast.line.js";

/** What of a train is pulled or let coast: all of it as the plan has it, or the loco with nobody on it. */
export type Pulled = "train" | "loco";

/** A plan's train, as pulls and runs that coast want it. */
export interface Coasting {
  readonly mass_kg: number;
  /** Mass that it accelerates like over its mass: wheels, and the drive where that is in mesh. */
  readonly rotating: number;
  /** By how much of itself that may be off, nineteen in twenty. */
  readonly rotating_doubt: number;
  /** Of the air, N at 1 m/s. */
  readonly air_N: number;
  /** At the wheels, at a speed; nothing out of mesh, N. */
  drag_N(speed_mps: number): number;
}

/** The train of a plan with its drive in mesh or the chain off. */
export function coastingOf({ train }: Plan, mesh: "in" | "out", pulled: Pulled = "train", loco_kg = 0): Coasting {
  const mass_kg = pulled === "loco" ? loco_kg : train.mass_kg;
  const wheels_kg = train.drivenWheels_kgm2 / train.radius_m ** 2;
  const others_kg = train.translating_kg - train.mass_kg;
  const turning_kg = mesh === "in" ? train.rim_kg : wheels_kg;
  const rotating = 1 + (others_kg + turning_kg) / train.mass_kg;
  return {
    mass_kg,
    rotating,
    rotating_doubt: (TURNING * (rotating - 1)) / rotating,
    air_N: train.airFactor,
    drag_N: (speed_mps) => (mesh === "in" ? driveDrag_N(train, speed_mps) : 0),
  };
}

/** Wheels of 8 to 25 mm are 15 mm as they are taken to be, by half of that: as their key has it. */
const TURNING = 0.5;

/** The plan's line, as runs that coast want it. */
export function coastLineOf(plan: Plan): CoastLine {
  const doubt = surveyedFor(plan.train, plan.track)?.doubt ?? 0;
  return { gradient: gradientUnder(plan), length_m: plan.track.length_m, doubt };
}

/** Rise over distance under the whole train, its head at a chainage, in the direction that chainages grow. */
function gradientUnder({ train, track }: Plan): (head_m: number, forwards: boolean) => number {
  const length_m = train.length_m;
  return (head_m, forwards) => {
    const tail_m = head_m + (forwards ? -length_m : length_m);
    const [low_m, high_m] = forwards ? [tail_m, head_m] : [head_m, tail_m];
    return (heightAt_m(track, high_m) - heightAt_m(track, low_m)) / length_m;
  };
}

/** Beyond the ends of a line its last stretches go on. */
function heightAt_m(track: Track, at_m: number): number {
  const along_m = onTheLine(track, at_m);
  const { distance_m: d, height_m: h } = track;
  const i = stretchAt(track, along_m, 0);
  return h[i] + ((h[i + 1] - h[i]) * (along_m - d[i])) / (d[i + 1] - d[i]);
}
