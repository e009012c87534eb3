import type { WholeColumns } from "../../packages/sim-core/src/parts/track.columns.js";

/** One post of a profile: where, how high, and what begins there. */
export type Post = readonly [
  distance_m: number,
  height_m: number,
  radius_m?: number | undefined,
  limit_mps?: number | undefined,
];

/** A profile from its posts. */
export const profile = (posts: readonly Post[]): WholeColumns => ({
  distance_m: posts.map(([distance_m]) => distance_m),
  height_m: posts.map(([, height_m]) => height_m),
  curvature_radpm: posts.map(([, , radius_m]) => (radius_m === undefined ? 0 : 1 / radius_m)),
  limit_mps: posts.map(([, , , limit_mps]) => limit_mps ?? Number.POSITIVE_INFINITY),
  place: posts.map(() => ""),
});

export const level = (length_m = 1e5): WholeColumns =>
  profile([
    [0, 0],
    [length_m, 0],
  ]);

/** One slope from end to end; `sine` is rise over distance along the rail. */
export const slope = (sine: number, length_m = 1e4): WholeColumns =>
  profile([
    [0, 0],
    [length_m, sine * length_m],
  ]);

/** A circuit that climbs half its length and falls the other half. */
export const hill = (sine: number, length_m = 1e4): WholeColumns =>
  profile([
    [0, 0],
    [length_m / 2, (sine * length_m) / 2],
    [length_m, 0],
  ]);

/** The sine of a slope that people give as rise over run. */
export const sineOf = (riseOverRun: number): number => Math.sin(Math.atan(riseOverRun));
