import { figures } from "@rideon/sim-core";

/** How likely, as people say it. */
export function plainly(probability: number): string {
  const word = LIKELY.find(([least]) => probability >= least);
  return word?.[1] ?? "very unlikely";
}

const LIKELY: readonly (readonly [least: number, word: string])[] = [
  [0.99, "almost certainly"],
  [0.9, "very likely"],
  [0.66, "likely"],
  [0.4, "as likely as not"],
  [0.1, "possibly"],
  [0.01, "unlikely"],
];

/** `86 %`; never none and never all. */
export function percent(probability: number): string {
  if (probability > 0.995) return "over 99 %";
  return probability < 0.01 ? "under 1 %" : `${figures(Math.round(100 * probability))} %`;
}
