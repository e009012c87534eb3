import { expect, it } from "vitest";

export interface Tolerance {
  /** As a share of the expected figure. */
  within: number;
  /** Why not less. */
  because: string;
}

/** One published figure and what the part makes of the same data. */
export interface Check extends Tolerance {
  what: string;
  /** Where the data and the figure stand. */
  source: string;
  got: number;
  expected: number;
}

/** Our figures against the same algebra carried out elsewhere without rounding: nine digits are kept of those. */
export const UNROUNDED: Tolerance = { within: 1e-8, because: "reworked without rounding, kept to nine digits" };

/** Against what a book or an exam prints, whose steps are rounded on the way. */
export const PRINTED: Tolerance = { within: 3e-3, because: "printed from steps rounded to three or four figures" };

export function checks(rows: readonly Check[]): void {
  it.each(rows)("$source: $what", ({ got, expected, within }) => {
    expect(Math.abs(got - expected) / Math.abs(expected)).toBeLessThanOrEqual(within);
  });
}

export const RPM_radps = Math.PI / 30;
export const HOUR_s = 3600;
