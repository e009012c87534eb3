import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";

/**
 * Figures worked out from inputs that are in doubt, each by itself. Every input is moved by as much as its own interval is
 * wide (the law of propagation of uncertainty, JCGM 100:2008, 5.1.2); an end of a figure is where all of them lie together, each by
 * its part in it, as far out as nineteen in twenty do: exact for what is straight, and for what bends one way in one sum of them.
 * @param of the figures for how many standard deviations each input is off, 0 where absent; NaN for what cannot be told
 * @param about where the middle of an input's doubt lies, if not where the input itself is taken to be
 * @returns figures, the ends that hold nineteen in twenty, and how they go together
 */
export function propagated(
  of: (off: Readonly<Record<string, number>>) => readonly number[],
  names: readonly string[],
  about: Readonly<Record<string, number>> = {},
): { values: readonly number[]; ends: (readonly [low: number, high: number])[]; correlation: number[][] } {
  const values = of({});
  const from = (off: Readonly<Record<string, number>>) =>
    of(Object.fromEntries(names.map((name) => [name, (about[name] ?? 0) + (off[name] ?? 0)])));
  const middle = from({});
  const sides = names.map((name) =>
    [1, -1].map((way) => from({ [name]: way * NINETEEN_IN_TWENTY }).map((each, i) => each - middle[i])),
  );
  const end = (i: number, way: 1 | -1): number => {
    // Each input's part in it, and the side of the input on which that is.
    const parts = sides.map(([up, down]) => {
      const [above, below] = [way * up[i], way * down[i]];
      return above >= below ? Math.max(0, above) : -Math.max(0, below);
    });
    const size = Math.hypot(...parts);
    if (!(size > 0)) return values[i];
    const there = from(Object.fromEntries(names.map((name, k) => [name, (NINETEEN_IN_TWENTY * parts[k]) / size])))[i];
    return way > 0 ? Math.max(values[i], there) : Math.min(values[i], there);
  };
  const together = (i: number, j: number) =>
    sides.reduce((sum, [up, down]) => sum + ((up[i] - down[i]) * (up[j] - down[j])) / 4, 0);
  const correlation = values.map((_, i) =>
    values.map((_, j) => {
      if (i === j) return 1;
      const size = Math.sqrt(together(i, i) * together(j, j));
      return size > 0 ? together(i, j) / size : 0;
    }),
  );
  return { values, ends: values.map((_, i) => [end(i, -1), end(i, 1)] as const), correlation };
}
