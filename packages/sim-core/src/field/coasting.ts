import { driveDrag_N } from "../drive/pull.js";
import { onTheLine, stretchAt, type Track } from "../parts/track.js";
import type { Plan } from "../train/plan.js";

/** What of a train is pulled or let coast: all of it as the plan has it, or the loco with nobody on it. */
export type Pulled = "train" | "loco";

/** A plan's train, as pulls and runs that coast want it. */
export interface Coasting {
  readonly mass_kg: number;
  /** Mass that it accelerates like over its mass: wheels, and the drive where that is in mesh. */
  readonly rotating: number;
  /** At the wheels, at a speed; nothing out of mesh, N. */
  drag_N(speed_mps: number): number;
}

/** The train of a plan with its drive in mesh or the chain off. */
export function coastingOf({ train }: Plan, mesh: "in" | "out", pulled: Pulled = "train", loco_kg = 0): Coasting {
  const mass_kg = pulled === "loco" ? loco_kg : train.mass_kg;
  const wheels_kg = train.drivenWheels_kgm2 / train.radius_m ** 2;
  const others_kg = train.translating_kg - train.mass_kg;
  const turning_kg = mesh === "in" ? train.rim_kg : wheels_kg;
  return {
    mass_kg,
    rotating: 1 + (others_kg + turning_kg) / train.mass_kg,
    drag_N: (speed_mps) => (mesh === "in" ? driveDrag_N(train, speed_mps) : 0),
  };
}

/** Rise over distance under the whole train, its head at a chainage, in the direction that chainages grow. */
export function gradientUnder({ train, track }: Plan): (head_m: number, forwards: boolean) => number {
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
