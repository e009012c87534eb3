import { mustBeAsked } from "../studies/asked.js";
import type { PlanFiles } from "../studies/limits/limits.js";
import { madeSizing } from "../studies/size/input.js";
import { bandsOf, designOf, type Headline, type Spread, type Sureness } from "./bands.js";
import { type Doubtful, doubtOf } from "./doubts.js";
import { askDrawn } from "./draw.js";
import { type Doubted, type Found, HEADLINES } from "./headlines.js";

/** Sizing needs no motor, controller or battery. */
const doubtsFor = (files: PlanFiles, question: Doubted): Doubtful[] =>
  question === "size" ? doubtOf(files, madeSizing(files.plan, files.loco, files.track).notes.assumed) : doubtOf(files);

/** Every point of a survey errs by itself, and each draw has a survey of its own. */
const SURVEYS = 100_003;

/**
 * The headlines of some of the draws, in order: each is worked out from the seed and its place alone, so that threads may
 * share them in any way.
 * @param found what the bare answer found
 * @param from the first, counted from 0; @param to the one after the last
 * @param onDraw told after each
 * @throws RunError
 */
export function drawnHeadlines(
  files: PlanFiles,
  question: Doubted,
  found: Found,
  spread: Spread,
  from = 0,
  to = spread.count,
  onDraw: () => void = () => {},
): (Headline | null)[] {
  const doubts = doubtsFor(files, question);
  const { points } = designOf(spread, doubts);
  return points.slice(from, to).map((z, i) => {
    const headline = askDrawn(files, doubts, z, spread.seed * SURVEYS + from + i, (drawn) =>
      HEADLINES[question](drawn, found, from + i),
    );
    onDraw();
    return headline;
  });
}

/** Draws that a question takes unless told: enough that the ends of its bands are those of thousands of plain ones. */
export const DRAWS: Readonly<Record<Doubted, number>> = {
  run: 72,
  laps: 64,
  climb: 160,
  gears: 120,
  brakes: 120,
  size: 120,
  limits: 72,
};

export const SEED = 1;

/**
 * How sure the answer to a question is: bands that hold nine in ten, chances, and what to measure first.
 * @param headlines those of all draws, where they have been worked out; unless told they are now
 * @throws RunError
 */
export function bands(
  files: PlanFiles,
  question: Doubted,
  found: Found = {},
  spread: Spread = { count: DRAWS[question], seed: SEED, plain: false },
  headlines: readonly (Headline | null)[] = drawnHeadlines(files, question, found, spread),
): Sureness {
  mustBeAsked({ draws: spread.count });
  return bandsOf(doubtsFor(files, question), spread, headlines);
}
