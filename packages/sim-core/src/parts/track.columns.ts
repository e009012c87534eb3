/**
 * What the survey came to where nobody may ride by it: its book missed by more than its class allows, nothing closed it so that
 * a misread reading would not show, or its heights are a receiver's. It goes with the profile wherever that goes.
 */
export const UNFIT = ["not accepted", "not closed", "by receiver"] as const;
export type Unfit = (typeof UNFIT)[number];

/** The columns of a profile in SI units, a value for each post: two posts or more. */
export interface TrackColumns {
  /** Distance along the rail, m, rising from post to post; a circuit ends with its first post again. */
  readonly distance_m: readonly number[];
  /** Rail height at the post, m; or else `sine`. */
  readonly height_m?: readonly number[];
  /** Rise over distance from this post to the next, uphill +; from gradient columns. */
  readonly sine?: readonly number[];
  /** How far off rise over distance from this post to the next may be, nineteen in twenty. Not told where absent. */
  readonly sineDoubt?: readonly number[];
  /** Why nobody may ride by the levels from this post to the next; "" where nothing says so. Not told where absent. */
  readonly levelling?: readonly (Unfit | "")[];
  /** 1/radius from this post to the next, 1/m, either hand; 0 where straight. Straight all along where absent. */
  readonly curvature_radpm?: readonly number[];
  /** Speed limit from this post to the next, m/s; Infinity where there is none. None at all where absent. */
  readonly limit_mps?: readonly number[];
  /** Name of the place that starts here; "" where it has none. No names where absent. */
  readonly place?: readonly string[];
}

/** The same with every column there, as a profile is read. */
export type WholeColumns = TrackColumns & Required<Pick<TrackColumns, "curvature_radpm" | "limit_mps" | "place">>;
