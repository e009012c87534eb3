import type { Sweep } from "./grid.js";
import { lineOf } from "./row.js";

/** A thread's part: it takes the next case that nobody has, as long as there is one. */
export interface SweepJob {
  sweep: Sweep;
  /** The next case to be taken, and how many are written: shared by all threads. */
  shared: SharedArrayBuffer;
  /** Of the cases, from 0: one after the last. */
  to: number;
}

export const NEXT = 0;
export const WRITTEN = 1;

/** A thread that is so far ahead of what is written waits, so that no more is kept than this. */
const AHEAD = 4096;

/** A case that is done: its number, from 0, and its line. */
export interface CaseDone {
  doing: string;
  index: number;
  line: string;
}

/** Told of each case that is done. */
type OnCase = (done: CaseDone) => void;

export function work({ sweep, shared, to }: SweepJob, onCase: OnCase): void {
  const counters = new Int32Array(shared);
  for (;;) {
    const index = Atomics.add(counters, NEXT, 1);
    if (index >= to) return;
    for (;;) {
      const written = Atomics.load(counters, WRITTEN);
      if (index - written < AHEAD) break;
      Atomics.wait(counters, WRITTEN, written, 1000);
    }
    onCase({ doing: "", index, line: lineOf(sweep, index) });
  }
}
