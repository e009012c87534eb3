import * as at from "../state.js";
import type { Working } from "../working.js";
import { approachTo, STOP_WITHIN_m } from "./approach.js";
import { type Approach, approachEnergy_Jpkg } from "./curve.js";
import { hasServiceBrake } from "./hands.js";

/** Looked for this far, and this fine, m. */
const FAR_m = 50;
const FINE_m = 0.05;

/**
 * How much further on a driver without a brake could shut off, and the train still came to rest before it ran past the end
 * of the line, m; null where a brake would help, or where no end of a line lies ahead.
 */
export function leewayAt_m(w: Working): number | null {
  const { stop, track, y } = w;
  if (!stop || track.kind === "circuit" || stop.at_m <= track.length_m - STOP_WITHIN_m || hasServiceBrake(w))
    return null;
  const last_m = stop.at_m + STOP_WITHIN_m;
  const curve = curveTo(w, last_m);
  const energy_Jpkg = y[at.SPEED] ** 2 / 2;
  let leeway_m = 0;
  while (leeway_m < FAR_m && approachEnergy_Jpkg(curve, y[at.POSITION] + leeway_m - last_m) >= energy_Jpkg)
    leeway_m += FINE_m;
  return leeway_m;
}

/** Nothing kept in hand; worked out once for each way and load. */
function curveTo(w: Working, last_m: number): Approach {
  const key = `latest ${w.returning} ${w.aboard}`;
  const known = w.approaches.get(key);
  if (known) return known;
  const found = approachTo(w, last_m, { braking: false, limit_mps: 0, top_mps: FASTEST_mps, room: false });
  w.approaches.set(key, found);
  return found;
}

/** Nothing on a club line comes in faster, m/s. */
const FASTEST_mps = 15;
