import { availableParallelism } from "node:os";
import {
  bands,
  type Doubted,
  DRAWS,
  type Found,
  type Headline,
  SEED,
  type Spread,
  type Sureness,
} from "@rideon/sim-core";
import type { Progress } from "../words/progress.js";
import type { Files } from "./files.js";
import type { SureFlags } from "./flags.js";
import { onThread } from "./thread.js";

/** Whose bands are wanted, and what the bare answer found. */
export interface Doubt {
  question: Doubted;
  found: Found;
}

/** A thread's part of the draws. */
export interface Share extends Doubt {
  files: Files;
  spread: Spread;
  from: number;
  to: number;
}

/** More threads than this are of no use to so few draws. */
const MOST_THREADS = 8;
/** A thread takes as long to begin as some draws do. */
const LEAST_A_THREAD = 16;

/** `--draws` and `--seed` ask for plain draws; without them few well spread ones do as well. */
export function spreadOf(question: Doubted, { draws, seed }: SureFlags): Spread {
  return { count: draws ?? DRAWS[question], seed: seed ?? SEED, plain: draws !== undefined };
}

/** How sure an answer is, on all cores: the same for the same seed, whatever their number. */
export async function surenessOf(
  files: Files,
  doubt: Doubt,
  flags: SureFlags,
  onProgress: (progress: Progress) => void,
): Promise<Sureness> {
  const spread = spreadOf(doubt.question, flags);
  const threads = Math.max(
    1,
    Math.min(flags.workers ?? availableParallelism(), MOST_THREADS, Math.floor(spread.count / LEAST_A_THREAD)),
  );
  const begun_ms = Date.now();
  let done = 0;
  const tell = () => {
    done++;
    onProgress({ doing: progressOf(done, spread.count, (Date.now() - begun_ms) / 1000) });
  };
  const shares = Array.from({ length: threads }, (_, i) => {
    const [from, to] = [i, i + 1].map((each) => Math.round((each * spread.count) / threads)) as [number, number];
    const share: Share = { ...doubt, files, spread, from, to };
    return onThread<(Headline | null)[]>("sureness", share, tell);
  });
  return bands(files, doubt.question, doubt.found, spread, (await Promise.all(shares)).flat());
}

/** With the time left, once it can be told. */
function progressOf(done: number, of: number, taken_s: number): string {
  const left_s = (taken_s / done) * (of - done);
  const left = taken_s > 2 && left_s > 2 ? `, ${Math.ceil(left_s)} s left` : "";
  return `looking at how sure that is: ${done} of ${of} draws${left}`;
}
