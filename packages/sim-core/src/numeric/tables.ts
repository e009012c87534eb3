/** Points joined by straight lines, level beyond both ends. `x` increases. */
export interface Table {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export const table = (points: readonly (readonly [number, number])[]): Table => ({
  x: Float64Array.from(points, (p) => p[0]),
  y: Float64Array.from(points, (p) => p[1]),
});

/** The stretch that holds `x`: the index of its first point. From `hint` in strides that double, and back by halves. */
export function stretch(xs: Float64Array, x: number, hint: number): number {
  // Mostly it is where it was.
  if (x >= xs[hint] && x < xs[hint + 1]) return hint;
  const last = xs.length - 2;
  let low = Math.min(Math.max(hint, 0), last);
  let high = low + 1;
  for (let stride = 1; low > 0 && x < xs[low]; stride *= 2) {
    high = low;
    low = Math.max(0, low - stride);
  }
  for (let stride = 1; high <= last && x >= xs[high]; stride *= 2) {
    low = high;
    high = Math.min(last + 1, high + stride);
  }
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x < xs[middle]) high = middle;
    else low = middle;
  }
  return low;
}

/** The value at `x`, straight between points. */
export const lookUp = (t: Table, x: number): number => interpolate(t.x, t.y, x);

/** The same for places and values that stand in arrays of their own. */
export function interpolate(xs: Float64Array, ys: Float64Array, x: number): number {
  const n = xs.length;
  if (x <= xs[0]) return ys[0];
  if (x >= xs[n - 1]) return ys[n - 1];
  let i = 0;
  for (let high = n - 1; high - i > 1; ) {
    const middle = (i + high) >> 1;
    if (x < xs[middle]) high = middle;
    else i = middle;
  }
  return ys[i] + ((ys[i + 1] - ys[i]) * (x - xs[i])) / (xs[i + 1] - xs[i]);
}

/** The area under the table from its first point to `x`; the ends go on level. */
export function areaTo(t: Table, x: number): number {
  const { x: xs, y: ys } = t;
  const n = xs.length;
  if (x <= xs[0]) return ys[0] * (x - xs[0]);
  let area = 0;
  for (let i = 0; i + 1 < n; i++) {
    if (x <= xs[i + 1]) {
      const y = ys[i] + ((ys[i + 1] - ys[i]) * (x - xs[i])) / (xs[i + 1] - xs[i]);
      return area + ((ys[i] + y) / 2) * (x - xs[i]);
    }
    area += ((ys[i] + ys[i + 1]) / 2) * (xs[i + 1] - xs[i]);
  }
  return area + ys[n - 1] * (x - xs[n - 1]);
}
