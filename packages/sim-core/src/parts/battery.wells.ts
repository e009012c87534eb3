import { root } from "../numeric/roots.js";

/**
 * The kinetic battery of J. F. Manwell and J. G. McGowan, Solar Energy 50 (1993) 399: a well that the current is drawn
 * from, and a second one that levels with it at `exponentRate_ps`. (The letter k stands in the literature for this rate
 * and for another, smaller by c (1 - c).) With `availableShare` 1 there is no second well and charge is only counted.
 */
export interface Wells {
  /** Charge in both wells when full. */
  readonly wells_C: number;
  readonly availableShare: number;
  readonly exponentRate_ps: number;
}

/** Flow from the second well to the available one. */
export const flow_A = (w: Wells, available_C: number, bound_C: number): number =>
  w.exponentRate_ps * (w.availableShare * bound_C - (1 - w.availableShare) * available_C);

/** Both wells after a steady current for a time: the closed form of the two rates. */
export function wellsAfter_C(
  w: Wells,
  available_C: number,
  bound_C: number,
  current_A: number,
  time_s: number,
): [available_C: number, bound_C: number] {
  const share = w.availableShare;
  const levelled = -Math.expm1(-w.exponentRate_ps * time_s);
  const settling_s = w.exponentRate_ps > 0 ? levelled / w.exponentRate_ps : time_s;
  const total_C = available_C + bound_C;
  const lasting_C = current_A * (time_s - settling_s);
  return [
    available_C * (1 - levelled) + share * total_C * levelled - current_A * settling_s - share * lasting_C,
    bound_C * (1 - levelled) + (1 - share) * total_C * levelled - (1 - share) * lasting_C,
  ];
}

/** Time at a steady current until the available well is empty. */
export function lifetime_s(w: Wells, available_C: number, bound_C: number, current_A: number): number {
  if (available_C <= 0) return 0;
  if (current_A <= 0) return Number.POSITIVE_INFINITY;
  // When all is drawn the available well must be empty; it falls once only, so this encloses the moment.
  const latest_s = (available_C + bound_C) / current_A;
  const left_C = (time_s: number) => wellsAfter_C(w, available_C, bound_C, current_A, time_s)[0];
  return left_C(latest_s) >= 0 ? latest_s : root(left_C, 0, latest_s);
}

/** Charge that full wells give at the steady current which empties them in just that time. */
export function capacityOver_C(w: Wells, time_s: number): number {
  const turns = w.exponentRate_ps * time_s;
  const levelled = -Math.expm1(-turns);
  if (levelled === 0) return w.availableShare * w.wells_C;
  return (w.wells_C * w.availableShare * turns) / (levelled + w.availableShare * (turns - levelled));
}

/**
 * Time to empty by Peukert's law in the form that keeps a label true, t = H (C/(I H))^n.
 * @param label_C charge it gives at the steady current that empties it in `label_s`
 */
export const peukert_s = (label_C: number, label_s: number, exponent: number, current_A: number): number =>
  label_s * (label_C / (current_A * label_s)) ** exponent;
