import type { Setting } from "./setting.js";
import { gripping, running, type Settled } from "./settled.js";

// The ranges that sizes of causes are looked for in: common practice, no source, all of them.

/** Sizes tried within a range. */
const TRIED = 13;

export const evenly = (from: number, to: number, tried = TRIED): number[] =>
  Array.from({ length: tried }, (_, i) => from + ((to - from) * i) / (tried - 1));

export const byRatio = (from: number, to: number): number[] => evenly(Math.log(from), Math.log(to)).map(Math.exp);

/** The one size of what has none. */
export const ALONE: readonly number[] = [1];

/** A fault begins where the doubt about a sound machine ends: this many standard deviations out. */
const OUT_sd = 4;

/** The least share by which a fault raises a figure of which a sound machine's is known this well. */
export const beyond = (sd: number): number => Math.expm1(OUT_sd * sd);

/** The sound machine that faults are measured by. */
export interface Yardstick {
  /** On the level at line speed. */
  readonly run: Settled;
  /** At the steepest place, lever opened until it is full or something is about to slip. */
  readonly full: Settled;
  /** The most that a fault may take and leave it moving: nearly half of what it has beyond starting on the level, N. */
  readonly most_N: number;
}

export function yardstickOf({ machine, levers }: Setting): Yardstick {
  const { train } = machine;
  const full = gripping(machine, train, machine.steep, 1);
  return {
    run: running(machine, train, 0, levers.run),
    full,
    most_N: 0.45 * (full.force_N - train.breakaway_N),
  };
}

/** Joints and batteries are known by the volts they take at this loco's own currents. */
export const taking_ohm = (nominal_V: number, current_A: number): number[] =>
  byRatio((0.05 * nominal_V) / current_A, (0.35 * nominal_V) / current_A);
