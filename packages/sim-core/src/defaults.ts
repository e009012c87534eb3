/**
 * What is taken where a file leaves a key out. A default stands once, in its key's table: as numbers in the unit of the
 * definition, each with its range, and with its source. The parts work with these numbers, and every text that tells of a
 * default is made of them.
 */

/** The source of what everybody does and nobody has written down. */
export const CP = "common practice, no source";

/**
 * Low and high: about nine true figures in ten lie between. `exact` where nothing is in doubt: a count, what is meant and
 * not measured, 0 because nothing is there.
 */
export type Range = readonly [low: number, high: number] | "exact";

export type Plain = number | string | boolean;

/** A range for every number of a default, so that none can be left without. */
export type RangeOf<V> = V extends number
  ? Range
  : V extends string | boolean
    ? "exact"
    : { readonly [K in keyof V]: RangeOf<V[K]> };

/** One value, whatever else the files say. */
export interface Fixed<V extends Plain = Plain> {
  readonly is: "fixed";
  readonly value: V;
  readonly range: RangeOf<V>;
  readonly source: string;
}

/** Worked out from other keys: `value` is what the formula multiplies by or chooses among, one for each case. */
export interface Derived<V = Plain | Readonly<Record<string, Plain>>> {
  readonly is: "derived";
  readonly value: V;
  readonly range: RangeOf<V>;
  /** The formula, made of its numbers. */
  readonly words: string;
  readonly source: string;
}

/** Another figure as it stands, with no number of its own; the range is in times that figure. */
export interface TakenFrom {
  readonly is: "taken";
  readonly words: string;
  readonly range: Range;
  /** Absent where the words say it all. */
  readonly source?: string;
}

export type Default = Fixed<number> | Fixed<string> | Fixed<boolean> | Derived | TakenFrom;

/** A number: `fixed(0.3, { range: [0.1, 0.6], source: CP })`. */
export const fixed = (value: number, of: { range: Range; source: string }): Fixed<number> => ({
  is: "fixed",
  value,
  ...of,
});

/** A choice, a name, or yes or no: there is nothing to be off by. */
export const chosen = <const V extends string | boolean>(value: V, source: string) =>
  ({ is: "fixed", value, range: "exact", source }) as const;

/** Numbers of a formula: `derived(3.3, { range: [2, 5], words: (times) => `${times} × gauge`, source: CP })`. */
export const derived = <V extends Plain | Readonly<Record<string, Plain>>>(
  value: V,
  { words, ...of }: { range: RangeOf<V>; words: (value: V) => string; source: string },
): Derived<V> => ({ is: "derived", value, words: words(value), ...of });

/** A share of another figure, which the words name: `3.3 × gauge`. */
export const times = (factor: number, figure: string, of: { range: Range; source: string }): Derived<number> => ({
  is: "derived",
  value: factor,
  words: `${factor} × ${figure}`,
  ...of,
});

/** Another figure: `taken("rated current", { range: [0.8, 1.1], source: "what a rating means" })`. */
export const taken = (words: string, of: { range: Range; source?: string }): TakenFrom => ({
  is: "taken",
  words,
  ...of,
});
