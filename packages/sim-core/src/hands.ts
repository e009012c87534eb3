import { appliedAt, wantBrake } from "./parts/brakes.application.js";
import type { Brake } from "./parts/brakes.js";
import type { Working } from "./working.js";

/** A careful hand asks at most this share of what the wheels can pass on, so that they do not lock. */
const GRIP_SHARE = 0.98;

const inHand = (brake: Brake): boolean => brake.service && brake.by === "driver";

export const hasServiceBrake = (w: Working): boolean => w.train.brakes.some(inHand);

/** How far a brake can be put on before its wheels lock. */
function carefulShare(w: Working, brake: Brake): number {
  const { adhesion } = w.train;
  const axles = brake.axle_N > 0 ? (GRIP_SHARE * adhesion.static * brake.axleWeight_N) / brake.axle_N : 1;
  const rims = brake.rim_N > 0 ? (GRIP_SHARE * adhesion.static * w.train.driven_N) / brake.rim_N : 1;
  return Math.min(1, axles, rims);
}

/** What the driver's service brakes give at the most, put on with care, N. */
export const mostBraking_N = (w: Working): number =>
  w.train.brakes.reduce((sum, b) => sum + (inHand(b) ? carefulShare(w, b) * (b.rim_N + b.axle_N) : 0), 0);

/** Puts the driver's service brakes on for a force, in the order fitted; 0 lets them off. */
export function brakeFor(w: Working, force_N: number): void {
  let wanted_N = Math.max(0, force_N);
  const { brakes } = w.train;
  for (let i = 0; i < brakes.length; i++) {
    if (!inHand(brakes[i])) continue;
    const full_N = brakes[i].rim_N + brakes[i].axle_N;
    const share = full_N > 0 ? Math.min(carefulShare(w, brakes[i]), wanted_N / full_N) : 0;
    wantBrake(brakes, w.application, i, share, w.time_s);
    wanted_N -= share * full_N;
  }
}

/** Is a brake on its way off? */
export const lettingOff = (w: Working): boolean =>
  w.train.brakes.some(
    (_, i) => w.application.wanted[i] === 0 && appliedAt(w.train.brakes, w.application, i, w.time_s) > 0,
  );

/** A train that stands ready stands with its brakes on. */
export function standReady(w: Working): void {
  w.train.brakes.forEach((brake, i) => {
    if (inHand(brake)) w.application.from[i] = w.application.wanted[i] = 1;
  });
}

/** Holds a standing train with every service brake the driver has. */
export function holdOn(w: Working): void {
  w.train.brakes.forEach((brake, i) => {
    if (inHand(brake)) wantBrake(w.train.brakes, w.application, i, 1, w.time_s);
  });
}
