import { coasting_mps2, motion } from "../motion.js";
import { released } from "../parts/brakes.application.js";
import * as at from "../state.js";
import type { Working } from "../working.js";
import { type Approach, approachEnergy_Jpkg, SPACING_m } from "./curve.js";
import { mostBraking_N, timeToBite_s } from "./hands.js";

/** A stop is made when the leading end rests within this of its mark, m. */
export const STOP_WITHIN_m = 0.5;
/** The curve asks for this share of the service braking; the rest is kept in hand. */
export const SHARE_USED = 0.8;

/**
 * How far below the curve the train will be when brakes put on now have come on, having coasted until then: he shuts off
 * where that is nothing. J/kg, with what `motion` last left in `now`.
 * @param later_s not now, but so much later, having run on until then
 */
export function approachMargin_Jpkg(w: Working, a: Approach, mark_m: number, y: Float64Array, later_s = 0): number {
  const speed_mps = y[at.SPEED];
  const from_m = y[at.POSITION] + speed_mps * later_s - mark_m;
  const coasting = coasting_mps2(w, speed_mps);
  const then_mps = Math.max(0, speed_mps + coasting * a.lead_s);
  const then_m = from_m + ((speed_mps + then_mps) / 2) * a.lead_s;
  // Down to a limit it may have coasted before they bite: what counts is how it comes to the mark.
  const there_m = a.energy_Jpkg[a.energy_Jpkg.length - 1] > 0 ? Math.min(then_m, Math.max(0, from_m)) : then_m;
  const there_Jpkg = Math.max(0, (speed_mps * speed_mps) / 2 + coasting * (there_m - from_m));
  return approachEnergy_Jpkg(a, there_m) - there_Jpkg;
}

/** How a train is to come to a mark. */
export interface Coming {
  /** With the driver's service brakes. */
  braking: boolean;
  /** How fast it may be there; 0 to come to rest. */
  limit_mps: number;
  /** Faster than this is of no interest. */
  top_mps: number;
  /** Coasting, is some of what slows it kept in hand, so that it would rather stop short? */
  room: boolean;
}

/**
 * Integrates dw/ds = a(s, √2w), w = v²/2, back from the mark with power off: coasting, or slowing with the brakes as an
 * ordinary stop does, a share of it kept in hand.
 * @param sliding its wheels slide wherever the motor's drag alone would keep them sliding
 */
export function approachTo(w: Working, mark_m: number, coming: Coming, sliding = false): Approach {
  const { braking, limit_mps, top_mps } = coming;
  const last_Jpkg = limit_mps ** 2 / 2;
  const coasting: Working = {
    ...w,
    mode: { ...at.atRest(w.train.vehicles.length), train: 1, rim: 1 },
    now: at.newInstant(),
    lever: 0,
    application: released(w.train.brakes),
    axleBrake_N: w.axleBrake_N.slice(),
    heights_m: w.heights_m.slice(),
    turns_rad: w.turns_rad.slice(),
    hints: w.hints.slice(),
  };
  const y = w.y.slice();
  const dydt = new Float64Array(at.SIZE);
  const brakes_mps2 = braking ? (SHARE_USED * mostBraking_N(w)) / w.train.effective_kg : 0;
  const gentle_mps2 = -SHARE_USED * w.plan.serviceBraking_mps2;
  let skids = false;
  const slope = (along_m: number, energy_Jpkg: number): number => {
    y[at.POSITION] = along_m;
    y[at.SPEED] = Math.sqrt(2 * Math.max(0, energy_Jpkg));
    y[at.RIM_SPEED] = y[at.SPEED];
    coasting.mode.wheels = 0;
    motion(coasting, dydt, y, w.time_s);
    const { contact_N, staticGrip_N, slidingGrip_N } = coasting.now;
    if (contact_N < -staticGrip_N && y[at.SPEED] <= w.plan.speed_mps) skids = true;
    if (sliding && contact_N < -slidingGrip_N) {
      coasting.mode.wheels = -1;
      motion(coasting, dydt, y, w.time_s);
    }
    const free_mps2 = dydt[at.SPEED];
    if (coming.room && free_mps2 < 0) return SHARE_USED * free_mps2;
    return Math.min(free_mps2, Math.max(gentle_mps2, free_mps2 - brakes_mps2));
  };
  const points: [number, number][] = [[0, last_Jpkg]];
  const start_m = w.track.kind === "circuit" ? mark_m - w.track.length_m : w.train.length_m - SPACING_m;
  let along_m = mark_m;
  let energy = last_Jpkg;
  let stopsFrom_m = Number.POSITIVE_INFINITY;
  while (along_m > start_m && energy < top_mps ** 2 / 2) {
    const h = -SPACING_m;
    const k1 = slope(along_m, energy);
    const k2 = slope(along_m + h / 2, energy + (h / 2) * k1);
    const k3 = slope(along_m + h / 2, energy + (h / 2) * k2);
    const k4 = slope(along_m + h, energy + h * k3);
    energy += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    // Nobody slows to less than a limit for what the road then makes of it.
    if (limit_mps > 0) energy = Math.max(energy, last_Jpkg);
    if (energy <= 0) {
      stopsFrom_m = mark_m - along_m;
      break;
    }
    along_m += h;
    points.push([along_m - mark_m, energy]);
  }
  // A motor may drag harder than the rail can turn its wheels: once they slide, they slide to the mark.
  if (skids && !sliding) return approachTo(w, mark_m, coming, true);
  if (points.length === 1) points.push([-SPACING_m, last_Jpkg]);
  points.reverse();
  return {
    along_m: Float64Array.from(points, (p) => p[0]),
    energy_Jpkg: Float64Array.from(points, (p) => p[1]),
    lead_s: braking ? timeToBite_s(w, Math.min(brakes_mps2, -gentle_mps2) * w.train.effective_kg) : 0,
    stopsFrom_m,
  };
}
