import { availableParallelism } from "node:os";
import type { Progress } from "../../words/progress.js";
import { onThread } from "../../work/thread.js";
import type { Sweep } from "./grid.js";
import { type CaseDone, NEXT, type SweepJob, WRITTEN } from "./work.js";

/** Threads that work on a sweep; so many more would each only read the files once more. */
const MOST_THREADS = 64;

/**
 * Works out the cases from one to another, on several threads, and hands their lines over in order.
 * @param from the first case, from 0; @param to one after the last
 * @throws what a thread or `take` throws; the others are stopped then
 */
export async function eachCase(
  sweep: Sweep,
  { from, to, workers }: { from: number; to: number; workers: number | undefined },
  take: (line: string) => void,
  tell: (progress: Progress) => void,
): Promise<void> {
  if (from >= to) return;
  const counters = new Int32Array(new SharedArrayBuffer(2 * Int32Array.BYTES_PER_ELEMENT));
  counters[NEXT] = from;
  counters[WRITTEN] = from;
  const early = new Map<number, string>();
  const stop = new AbortController();
  const begun_ms = Date.now();
  let next = from;
  let fail: (error: unknown) => void = () => {};
  const failing = new Promise<never>((_, reject) => {
    fail = reject;
  });
  const took = (done: CaseDone) => {
    try {
      takeIn(done);
    } catch (error) {
      fail(error);
    }
  };
  const takeIn = (done: CaseDone) => {
    early.set(done.index, done.line);
    for (let line = early.get(next); line !== undefined; line = early.get(next)) {
      take(line);
      early.delete(next++);
    }
    Atomics.store(counters, WRITTEN, next);
    Atomics.notify(counters, WRITTEN);
    tell({ doing: progressOf(next - from, to - from, (Date.now() - begun_ms) / 1000, from) });
  };
  const job: SweepJob = { sweep, shared: counters.buffer as SharedArrayBuffer, to };
  const count = Math.max(1, Math.min(workers ?? availableParallelism(), MOST_THREADS, to - from));
  const threads = Array.from({ length: count }, () =>
    onThread<void>("sweep", job, (done) => took(done as CaseDone), stop.signal),
  );
  try {
    await Promise.race([Promise.all(threads), failing]);
  } catch (error) {
    stop.abort();
    throw error;
  }
}

/** With the time left, once it can be told. */
function progressOf(done: number, of: number, taken_s: number, before: number): string {
  const left_s = (taken_s / done) * (of - done);
  const left = taken_s > 2 && left_s > 2 ? `, ${leftTold(left_s)} left` : "";
  return `${before + done} of ${before + of} cases${left}`;
}

const leftTold = (s: number): string =>
  s < 100 ? `${Math.ceil(s)} s` : s < 6000 ? `${Math.ceil(s / 60)} min` : `${(s / 3600).toFixed(1)} h`;
