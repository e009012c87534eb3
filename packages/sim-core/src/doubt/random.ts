import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { normalQuantile } from "../numeric/quantile.js";

/** The first draws from a small seed lean to one side. */
const LOPSIDED = 20;

/** Even from 0 to 1, and the same for the same seed on any machine. */
export function evenDraws(seed: number): () => number {
  const generator = xoroshiro128plus(seed);
  for (let i = 0; i < LOPSIDED; i++) uniformFloat64(generator);
  return () => uniformFloat64(generator);
}

/** What is normal here is cut at so many standard deviations. */
export const CUT_sd = 3;
/** Share of a normal distribution that lies below the lower cut, and within the cuts. */
const BELOW = 0.0013498980316300933;
const WITHIN = 1 - 2 * BELOW;

/** A standard normal value, cut at three standard deviations, of a share from 0 to 1. */
export const cutNormal = (even: number): number =>
  Math.max(-CUT_sd, Math.min(CUT_sd, normalQuantile(BELOW + WITHIN * Math.min(1 - 1e-12, Math.max(1e-12, even)))));

/** Points in as many dimensions as there are figures in doubt, each a row of standard normal values. */
export interface Design {
  readonly points: readonly Float64Array[];
  readonly seed: number;
}

/**
 * Points well spread: of each figure, one value from each of as many equal slices as there are points, in an order of its
 * own (Latin hypercube: McKay, Beckman and Conover 1979).
 */
export function latinHypercube(count: number, figures: number, seed: number): Design {
  const even = evenDraws(seed);
  const points = Array.from({ length: count }, () => new Float64Array(figures));
  for (let j = 0; j < figures; j++) {
    const slices = shuffled(count, even);
    for (let i = 0; i < count; i++) points[i][j] = cutNormal((slices[i] + even()) / count);
  }
  return { points, seed };
}

/** The same with each slice's middle: where thousands are wanted, and cost must not be. */
export function normalScores(count: number, figures: number, seed: number): Float64Array[] {
  const even = evenDraws(seed);
  const scores = Float64Array.from({ length: count }, (_, i) => cutNormal((i + 0.5) / count));
  const points = Array.from({ length: count }, () => new Float64Array(figures));
  for (let j = 0; j < figures; j++) {
    const slices = shuffled(count, even);
    for (let i = 0; i < count; i++) points[i][j] = scores[slices[i]];
  }
  return points;
}

/** 0 to `count` - 1 in any order (Fisher and Yates). */
function shuffled(count: number, even: () => number): number[] {
  const order = Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const k = Math.floor(even() * (i + 1));
    [order[i], order[k]] = [order[k], order[i]];
  }
  return order;
}

/** Plain draws: each point by itself. The first of more points are those of fewer. */
export function plainDraws(count: number, figures: number, seed: number): Design {
  const even = evenDraws(seed);
  return {
    points: Array.from({ length: count }, () => Float64Array.from({ length: figures }, () => cutNormal(even()))),
    seed,
  };
}
