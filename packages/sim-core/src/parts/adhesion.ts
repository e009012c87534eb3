/** Grip of a driven wheel on the rail: the greatest share of its load it can pass on. */
export interface Adhesion {
  /** Before it slips. */
  readonly static: number;
  /** Once it slips. */
  readonly sliding: number;
}

/**
 * Steel tyre on rail: dry 0.25, moist 0.20, wet 0.05 to 0.15 (electricalexams.co, a table of Indian traction texts; dry
 * and wet also J. Koffman, 1948, wet = 0.6 × dry). Greasy 0.08: common practice, no source.
 */
export const RAIL = { dry: 0.25, damp: 0.2, wet: 0.15, greasy: 0.08 } as const;

/**
 * Sliding grip as a share of static. Dry steel on steel slides at half its static friction, oiled at 0.6 (OpenStax
 * University Physics 1, table 6.1: 0.6/0.3, 0.05/0.03); tests spread from 0.5 to 0.8.
 */
export const SLIDING_SHARE = 0.6;
