/** The columns of a profile in SI units, a value for each post. The reader makes them; `createTrack` closes the line. */
export interface TrackColumns {
  /** Distance along the rail, increasing. */
  distance_m: number[];
  /** Rail height at the post; or else `sine`. */
  height_m?: number[];
  /** Rise over distance from this post to the next, uphill +; from gradient columns. */
  sine?: number[];
  /** 1/radius from this post to the next; 0 where straight. */
  curvature_radpm: number[];
  /** Speed limit from this post to the next; Infinity where there is none. */
  limit_mps: number[];
  /** Name of the place that starts here; "" where it has none. */
  place: string[];
}
