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
