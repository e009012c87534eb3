import { transferred_N } from "../parts/adhesion.js";
import type { Working } from "../working.js";

/** Grip of the driven axles with the weight that the pull, gravity and inertia move on to them or off. */
export function shiftWhileGripping(w: Working): void {
  shift(w, transferAt_N(w, w.now.contact_N, w.now.acceleration_mps2));
}

/** The same while they slide. */
export function shiftWhileSliding(w: Working, resisting_N: number): void {
  const share = w.mode.wheels * w.train.adhesion.sliding;
  shift(w, contactAt_N(w, share, resisting_N) / share - w.now.onDrivers_N);
}

/**
 * The contact force that is a given share of the load it leaves on the driven axles itself, negative to brake: force and
 * load hang on each other, both straight lines, so they are solved.
 */
export function contactAt_N(w: Working, share: number, resisting_N: number): number {
  const perN_mps2 = w.mode.train === 0 ? 0 : 1 / w.train.translating_kg;
  const at0_N = transferAt_N(w, 0, -resisting_N * perN_mps2);
  const perN = transferAt_N(w, 1, (1 - resisting_N) * perN_mps2) - at0_N;
  return (share * (w.now.onDrivers_N + at0_N)) / (1 - share * perN);
}

/**
 * Weight moved on to the driven axles by a contact force at an acceleration, N. A standing train is taken as about to
 * leave the way its wheels spin, so that nothing jumps as it does.
 */
function transferAt_N(w: Working, contact_N: number, acceleration_mps2: number): number {
  const { train, now, mode } = w;
  const { transfer, locoRolling_N, brakedAxles_N, adhesion } = train;
  const slides_N = (mode.locked[0] ? adhesion.sliding : adhesion.static) * brakedAxles_N[0];
  const brake_N = mode.locked[0] || mode.train === 0 ? Math.min(w.axleBrake_N[0], slides_N) : w.axleBrake_N[0];
  const way = mode.train !== 0 ? mode.train : mode.wheels < 0 ? -1 : 1;
  const own_N = way * (locoRolling_N + now.locoCurves_N + brake_N) + now.locoGravity_N;
  const drawbar_N = contact_N - own_N - train.locoTranslating_kg * acceleration_mps2;
  const body_N = now.locoGravity_N + train.locoBody_kg * acceleration_mps2;
  return transfer.end * transferred_N(transfer, drawbar_N, body_N);
}

function shift({ train, now }: Working, onto_N: number): void {
  now.staticGrip_N = Math.max(0, now.staticGrip_N + train.adhesion.static * onto_N);
  now.slidingGrip_N = Math.max(0, now.slidingGrip_N + train.adhesion.sliding * onto_N);
}
