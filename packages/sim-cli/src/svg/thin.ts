/** A point of a line in pixels. */
export type Point = readonly [x: number, y: number];

/**
 * Of all points in one pixel column, the first, the least, the greatest and the last: no peak is lost, and no more is
 * written than is seen.
 */
export function thinned(points: readonly Point[]): Point[] {
  const kept: Point[] = [];
  for (let from = 0; from < points.length; ) {
    const column = Math.floor(points[from]![0]);
    let to = from;
    let [least, most] = [from, from];
    for (; to < points.length && Math.floor(points[to]![0]) === column; to++) {
      if (points[to]![1] < points[least]![1]) least = to;
      if (points[to]![1] > points[most]![1]) most = to;
    }
    const telling = new Set([from, Math.min(least, most), Math.max(least, most), to - 1]);
    for (const i of telling) kept.push(points[i]!);
    from = to;
  }
  return kept;
}

/** Nobody sees a line move by this much of a pixel. */
export const UNSEEN_px = 0.3;

/**
 * Without the points that lie on the straight line between others, as Ramer, Douglas and Peucker leave them out: what is
 * drawn moves by less than is seen.
 */
export function straightened(points: readonly Point[]): Point[] {
  if (points.length < 3) return [...points];
  const kept = new Uint8Array(points.length);
  kept[0] = 1;
  kept[points.length - 1] = 1;
  const open: [from: number, to: number][] = [[0, points.length - 1]];
  for (let span = open.pop(); span; span = open.pop()) {
    const [from, to] = span;
    const [x0, y0] = points[from]!;
    const [x1, y1] = points[to]!;
    const length = Math.hypot(x1 - x0, y1 - y0);
    let [furthest, off] = [0, UNSEEN_px];
    for (let i = from + 1; i < to; i++) {
      const [x, y] = points[i]!;
      const from_px =
        length > 0 ? Math.abs((x1 - x0) * (y0 - y) - (x0 - x) * (y1 - y0)) / length : Math.hypot(x - x0, y - y0);
      if (from_px > off) [furthest, off] = [i, from_px];
    }
    if (furthest === 0) continue;
    kept[furthest] = 1;
    open.push([from, furthest], [furthest, to]);
  }
  return points.filter((_, i) => kept[i]);
}
