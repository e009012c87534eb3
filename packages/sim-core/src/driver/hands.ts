import { appliedAt, wantBrake } from "../parts/brakes.application.js";
import type { Brake } from "../parts/brakes.js";
import type { Train } from "../train/train.js";
import type { Working } from "../working.js";

/** A careful driver asks at most this share of what the wheels can pass on, so that they neither slip nor lock. */
export const GRIP_SHARE = 0.98;

const inHand = (brake: Brake): boolean => brake.service && brake.by === "driver";

export const hasServiceBrake = (w: Working): boolean => w.train.brakes.some(inHand);

/**
 * Puts the driver's service brakes on one after another in the order fitted, each as far as the wheels can pass on what
 * the brakes before it have left; tells each one's share and returns what all of them give.
 * @param driven_N what the driven wheels can pass on for them
 */
function putOn(w: Working, wanted_N: number, driven_N: number, tell?: (brake: number, share: number) => void): number {
  const { brakes, brakedAxles_N, adhesion } = w.train;
  const grip = GRIP_SHARE * adhesion.static;
  let rims_N = driven_N;
  let axles_N = 0;
  let given_N = 0;
  for (let i = 0; i < brakes.length; i++) {
    const { rim_N, axle_N, vehicle } = brakes[i];
    if (vehicle !== brakes[i - 1]?.vehicle) axles_N = grip * brakedAxles_N[vehicle];
    if (!inHand(brakes[i])) continue;
    const full_N = rim_N + axle_N;
    let share = full_N > 0 ? Math.min(1, (wanted_N - given_N) / full_N) : 0;
    if (axle_N > 0) share = Math.min(share, axles_N / axle_N);
    if (rim_N > 0) share = Math.min(share, rims_N / rim_N);
    share = Math.max(0, share);
    axles_N -= share * axle_N;
    rims_N -= share * rim_N;
    given_N += share * full_N;
    tell?.(i, share);
  }
  return given_N;
}

/** What the driven wheels can pass on of a train as it stands, N. */
const standing_N = ({ adhesion, driven_N }: Train): number => GRIP_SHARE * adhesion.static * driven_N;

/** What the driver's service brakes give at the most, put on with care, N. */
export const mostBraking_N = (w: Working): number => putOn(w, Number.POSITIVE_INFINITY, standing_N(w.train));

/** How long the same brakes, all off, take to give a force: their delay and half their way on, s. */
export function timeToBite_s(w: Working, force_N: number): number {
  let time_s = 0;
  putOn(w, force_N, standing_N(w.train), (i, share) => {
    const { delay_s, buildUp_s } = w.train.brakes[i];
    time_s = Math.max(time_s, delay_s + (share * buildUp_s) / 2);
  });
  return time_s;
}

/**
 * Puts the driver's service brakes on for a force, in the order fitted.
 * @param driven_N what the driven wheels can pass on; @param least share of each that is put on all the same
 */
export function brakeFor(w: Working, force_N: number, driven_N: number, least: number): void {
  putOn(w, Math.max(0, force_N), driven_N, (i, wanted) =>
    wantBrake(w.train.brakes, w.application, i, Math.max(least, wanted), w.time_s),
  );
}

/** Lets them off. */
export const letOff = (w: Working): void => brakeFor(w, 0, 0, 0);

/** How much later acts what is asked of them now: the rest of their delay and half of what is left of their way, s. */
export function brakesActIn_s({ train, application, time_s }: Working): number {
  const { brakes } = train;
  let left_s = 0;
  for (let i = 0; i < brakes.length; i++) {
    if (!inHand(brakes[i])) continue;
    const wanted = application.wanted[i];
    const way = Math.abs(wanted - appliedAt(brakes, application, i, time_s));
    const off = wanted === 0 && way === 0;
    const delay_s = off ? brakes[i].delay_s : Math.max(0, application.begins_s[i] - time_s);
    left_s = Math.max(left_s, delay_s + (way * brakes[i].buildUp_s) / 2);
  }
  return left_s;
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

/** Wants every service brake that the driver has on by a share. */
export function brakeAll(w: Working, share: number): void {
  w.train.brakes.forEach((brake, i) => {
    if (inHand(brake)) wantBrake(w.train.brakes, w.application, i, share, w.time_s);
  });
}

/** Holds a standing train with every service brake the driver has. */
export const holdOn = (w: Working): void => brakeAll(w, 1);
