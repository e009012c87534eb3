import { resistance_N } from "../../drive/pull.js";
import { onTheLine } from "../../parts/track.js";
import { bendsFelt_m, curvesAt_N, gravityAt_N } from "../../train/line.js";
import type { Way } from "../ways.js";

/** What pulling a train steadily all the way round takes at the rail. Running down by itself counts as no pull. */
export interface LapForces {
  readonly mean_N: number;
  readonly rms_N: number;
  readonly distance_m: number;
}

/**
 * The whole line at one speed, exactly: between two places at which a coupling passes a post the force changes evenly.
 * Starts, stops and speed limits are left out, and what gravity gives back downhill is braked away.
 */
export function lapForces(ways: readonly Way[], speed_mps: number): LapForces {
  let work_J = 0;
  let square_N2m = 0;
  let distance_m = 0;
  for (const way of ways) {
    const { train, track } = way;
    const running_N = resistance_N(train, speed_mps, way.wind_mps);
    const places_m = bendsFelt_m(train, track).map((head_m) => onTheLine(track, head_m));
    if (track.kind === "circuit") places_m.push(0, track.length_m);
    places_m.sort((a, b) => a - b);
    const force_N = (head_m: number) =>
      running_N + gravityAt_N(train, track, head_m) + curvesAt_N(train, track, head_m);
    let from_m = places_m[0];
    let from_N = force_N(from_m);
    for (const to_m of places_m) {
      const to_N = force_N(to_m);
      const [pulled_m, high_N, low_N] = pulling(to_m - from_m, from_N, to_N);
      work_J += (pulled_m * (high_N + low_N)) / 2;
      square_N2m += (pulled_m * (high_N ** 2 + high_N * low_N + low_N ** 2)) / 3;
      distance_m += to_m - from_m;
      from_m = to_m;
      from_N = to_N;
    }
  }
  return { mean_N: work_J / distance_m, rms_N: Math.sqrt(square_N2m / distance_m), distance_m };
}

/** The part of an evenly changing force that pulls: over what length, and between which forces. */
function pulling(length_m: number, from_N: number, to_N: number): [length_m: number, high_N: number, low_N: number] {
  const high_N = Math.max(from_N, to_N);
  const low_N = Math.min(from_N, to_N);
  if (high_N <= 0) return [0, 0, 0];
  if (low_N >= 0) return [length_m, high_N, low_N];
  return [(length_m * high_N) / (high_N - low_N), high_N, 0];
}
