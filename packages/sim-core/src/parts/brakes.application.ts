import type { Brake } from "./brakes.js";

/** How far each brake is on, 0 to 1: from where it was it moves evenly to where it is wanted, once its delay is over. */
export interface Application {
  readonly from: Float64Array;
  readonly wanted: Float64Array;
  readonly begins_s: Float64Array;
}

export const released = (brakes: readonly Brake[]): Application => ({
  from: new Float64Array(brakes.length),
  wanted: new Float64Array(brakes.length),
  begins_s: new Float64Array(brakes.length),
});

/** How far brake `i` is on at a time; a bend where it begins and where it arrives, no jump. */
export function appliedAt(brakes: readonly Brake[], a: Application, i: number, time_s: number): number {
  const moved = Math.max(0, time_s - a.begins_s[i]) / brakes[i].buildUp_s;
  const way = a.wanted[i] - a.from[i];
  return way >= 0 ? a.from[i] + Math.min(way, moved) : a.from[i] + Math.max(way, -moved);
}

/** Sets where brake `i` is wanted from now on. The delay is served once, when it is put on from off. */
export function wantBrake(brakes: readonly Brake[], a: Application, i: number, share: number, time_s: number): void {
  if (share === a.wanted[i]) return;
  const now = appliedAt(brakes, a, i, time_s);
  const fromOff = now === 0 && a.wanted[i] === 0;
  const waiting = a.begins_s[i] > time_s && share > 0;
  if (!waiting) a.begins_s[i] = fromOff ? time_s + brakes[i].delay_s : time_s;
  a.from[i] = now;
  a.wanted[i] = share;
}

/** The next time at which a brake begins to move or arrives, so that a step can end there; Infinity when all rest. */
export function nextBend_s(brakes: readonly Brake[], a: Application, after_s: number): number {
  let next = Number.POSITIVE_INFINITY;
  for (let i = 0; i < brakes.length; i++) {
    const arrives_s = a.begins_s[i] + Math.abs(a.wanted[i] - a.from[i]) * brakes[i].buildUp_s;
    if (a.wanted[i] === a.from[i] || arrives_s <= after_s) continue;
    next = Math.min(next, a.begins_s[i] > after_s ? a.begins_s[i] : arrives_s);
  }
  return next;
}
