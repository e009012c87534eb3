import type { Eyes } from "../../words/eyes.js";

/** Neighbouring places of one kind, from the first to the last. */
export interface Stretch {
  from_m: number;
  to_m: number;
}

/**
 * Places of a kind gathered into stretches: two belong together where no other place lies between them.
 * @param all_m every place that was looked at, in order; @param round a circuit, whose end is its beginning
 */
export function stretchesOf(all_m: readonly number[], chosen_m: readonly number[], round: boolean): Stretch[] {
  const chosen = new Set(chosen_m);
  const stretches: Stretch[] = [];
  all_m.forEach((at_m, i) => {
    if (!chosen.has(at_m)) return;
    const last = stretches.at(-1);
    if (last && chosen.has(all_m[i - 1] ?? Number.NaN)) last.to_m = at_m;
    else stretches.push({ from_m: at_m, to_m: at_m });
  });
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (!round || !first || !last || first === last) return stretches;
  if (first.from_m !== all_m[0] || last.to_m !== all_m.at(-1)) return stretches;
  return [...stretches.slice(1, -1), { from_m: last.from_m, to_m: first.to_m }];
}

/** More stretches than this are not read. */
const MOST = 3;

/** `165 m, past Heron Bank, to 240 m, past Top Signal; …`. */
export function stretchesInWords(stretches: readonly Stretch[], { place }: Eyes): string {
  const told = stretches
    .slice(0, MOST)
    .map(({ from_m, to_m }) => (from_m === to_m ? place(from_m) : `${place(from_m)}, to ${place(to_m)}`));
  const more = stretches.length - told.length;
  return [...told, ...(more > 0 ? [`${more} more`] : [])].join("; ");
}
