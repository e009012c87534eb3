import { lookUp } from "../numeric/tables.js";
import { type ChargeData, RISE_FROM } from "./battery.charge.data.js";
import type { Battery } from "./battery.js";

/** A charger for the whole battery: so much current until the battery is at these volts, and then what it still takes. */
export interface Charger {
  readonly current_A: number;
  readonly voltage_V: number;
}

/** What of a battery a charge hangs on. */
export type Chargeable = Pick<Battery, "label_C" | "rested" | "resistance_ohm" | "polarisation_ohm" | "cells">;

/** A moment of a charge. */
export interface ChargeMoment {
  readonly time_s: number;
  /** Of the label's charge. */
  readonly share: number;
  readonly current_A: number;
}

/** How a charge ended: full by what went in; by the current it still took; cut off by the management; not in two weeks. */
export type ChargeEnd = "charge" | "current" | "management" | "never";

export interface Charge {
  /** From the start to the end, each step. */
  readonly moments: readonly ChargeMoment[];
  /** When the current begins to fall; the end where it never does. */
  readonly tapers_s: number;
  /** What the charger gave. */
  readonly given_C: number;
  readonly endedBy: ChargeEnd;
}

/** Longer than any charger is left on. */
const MOST_s = 14 * 86400;
/** A step is at most this long, gives at most this share of the label, and changes the current by at most this share. */
const LONGEST_STEP_s = 60;
const SHORTEST_STEP_s = 0.01;
const STEP_SHARE = 1 / 200;
const STEP_CHANGE = 0.01;
/** Nearer than this is there. */
const ROUNDING = 1e-9;
/** A current this near to where it is cut is cut: by so much a straight line misses within a step. */
const CUT_ROUNDING = 1e-4;

/**
 * Current that a battery takes from a charger: the charger's own, and at its volts no more than passes the resistance, the
 * polarisation settled, nor than the plates take (`acceptance_ph`).
 * @param share of the label's charge, the battery counted as one
 */
export function taken_A(b: Chargeable, data: ChargeData, { current_A, voltage_V }: Charger, share: number): number {
  const pushed_A = (voltage_V - chargingEmf_V(b, data, share)) / (b.resistance_ohm + b.polarisation_ohm);
  const accepted_A =
    data.acceptance_ph === Number.POSITIVE_INFINITY
      ? Number.POSITIVE_INFINITY
      : (data.acceptance_ph * (1 - share) * b.label_C) / 3600;
  return Math.max(0, Math.min(current_A, pushed_A, accepted_A));
}

/** Rested volts, and near full what flowing charge adds to them. */
function chargingEmf_V(b: Chargeable, { rise_V }: ChargeData, share: number): number {
  const cells = Number.isFinite(b.cells) ? b.cells : 0;
  return lookUp(b.rested, share) + cells * rise_V * Math.max(0, (share - RISE_FROM) / (1 - RISE_FROM));
}

/**
 * A charge from rest to full: constant current, then constant volts.
 *
 * The two wells do not stand here. They are fitted to what a discharge leaves behind; charged through them, a flat lead-acid
 * battery would take 26 h at a tenth of its capacity where makers print 16 to 18. The plates' acceptance stands in their
 * place, of all the charge that is missing.
 *
 * Of what the charger gives, the charge factor's part goes into gas and heat from the first ampere-hour to the last. (In truth
 * most of it goes at the end: spread evenly, the hours come out a little long.) By the midpoint rule.
 * @param from share of the label's charge, rested
 * @param high_V where a lithium battery's management disconnects
 */
export function chargeFrom(
  b: Chargeable,
  data: ChargeData,
  charger: Charger,
  from: number,
  high_V = Number.POSITIVE_INFINITY,
): Charge {
  const cut_A = (data.cut_ph * b.label_C) / 3600;
  const path_ohm = b.resistance_ohm + b.polarisation_ohm;
  let [time_s, given_C, tapers_s, share, step_s] = [0, 0, Number.NaN, from, LONGEST_STEP_s];
  let current_A = taken_A(b, data, charger, share);
  const moments: ChargeMoment[] = [{ time_s, share, current_A }];
  const done = (endedBy: ChargeEnd): Charge => ({
    moments,
    tapers_s: Number.isNaN(tapers_s) ? time_s : tapers_s,
    given_C,
    endedBy,
  });
  const after = (in_A: number, over_s: number) => share + (in_A * over_s) / data.factor / b.label_C;
  while (time_s < MOST_s) {
    if (share >= data.fullShare - ROUNDING) return done("charge");
    const tapering = current_A < charger.current_A * (1 - ROUNDING);
    if (tapering && Number.isNaN(tapers_s)) tapers_s = time_s;
    if (tapering && current_A <= cut_A * (1 + CUT_ROUNDING)) return done("current");
    const terminal_V = tapering ? charger.voltage_V : chargingEmf_V(b, data, share) + path_ohm * current_A;
    if (terminal_V >= high_V * (1 + ROUNDING)) return done("management");
    const most_s = Math.min(LONGEST_STEP_s, (STEP_SHARE * b.label_C) / current_A);
    step_s = Math.min(2 * step_s, most_s);
    let mean_A = taken_A(b, data, charger, after(current_A, step_s / 2));
    while (Math.abs(mean_A - current_A) > STEP_CHANGE * current_A && step_s > SHORTEST_STEP_s) {
      step_s /= 2;
      mean_A = taken_A(b, data, charger, after(current_A, step_s / 2));
    }
    // The last step ends where nothing is lacking any more, or where the current is down to where it is cut.
    const lacking_C = (data.fullShare - share) * b.label_C * data.factor;
    const next_A = taken_A(b, data, charger, after(mean_A, step_s));
    const part = current_A > cut_A && next_A < cut_A ? (current_A - cut_A) / (current_A - next_A) : 1;
    const over_s = part * (mean_A > 0 ? Math.min(step_s, lacking_C / mean_A) : step_s);
    share = after(mean_A, over_s);
    time_s += over_s;
    given_C += mean_A * over_s;
    current_A = taken_A(b, data, charger, share);
    moments.push({ time_s, share, current_A });
  }
  return done("never");
}

/** When a charge passed a share, between two of its moments in proportion; NaN where it did not. */
export function passes_s({ moments }: Charge, share: number): number {
  const i = moments.findIndex((moment) => moment.share >= share - ROUNDING);
  if (i <= 0) return i === 0 ? 0 : Number.NaN;
  const [before, after] = [moments[i - 1], moments[i]];
  const part = (share - before.share) / (after.share - before.share);
  return before.time_s + Math.min(1, Math.max(0, part)) * (after.time_s - before.time_s);
}
