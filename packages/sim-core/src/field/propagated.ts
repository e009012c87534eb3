/** What is read or taken, and how far off it may be: one standard deviation. */
export interface Input {
  readonly name: string;
  readonly sd: number;
}

const NINETEEN_IN_TWENTY = 1.959963984540054;

/**
 * Figures worked out from inputs that are in doubt, each by itself: the law of propagation of uncertainty (JCGM 100:2008,
 * 5.1.2), by differences as wide as the interval, so that what bends is counted on both sides.
 * @param of the figures for what each input is off by, 0 where absent; NaN for what cannot be told
 * @returns figures, the ends that hold nineteen in twenty, and how they go together
 */
export function propagated(of: (off: Readonly<Record<string, number>>) => readonly number[], inputs: readonly Input[]) {
  const values = of({});
  const sides = inputs.map(({ name, sd }) =>
    [1, -1].map((way) => of({ [name]: way * NINETEEN_IN_TWENTY * sd }).map((each, i) => each - values[i])),
  );
  const ends = values.map((value, i) => {
    const worst = (way: 1 | -1) =>
      Math.sqrt(sides.reduce((sum, both) => sum + Math.max(0, ...both.map((each) => way * each[i])) ** 2, 0));
    return [value - worst(-1), value + worst(1)] as const;
  });
  const together = (i: number, j: number) =>
    sides.reduce((sum, [up, down]) => sum + ((up[i] - down[i]) * (up[j] - down[j])) / 4, 0);
  const correlation = values.map((_, i) =>
    values.map((_, j) => (i === j ? 1 : together(i, j) / Math.sqrt(together(i, i) * together(j, j)))),
  );
  return { values, ends, correlation };
}
