/** Straight between points, level beyond the ends. */
export const between = (points: readonly (readonly [number, number])[], x: number): number => {
  let i = 1;
  while (i < points.length - 1 && x > points[i]![0]) i++;
  const [x0, y0] = points[i - 1]!;
  const [x1, y1] = points[i]!;
  return y0 + ((y1 - y0) * Math.min(Math.max(x - x0, 0), x1 - x0)) / (x1 - x0);
};

/** Height and angle turned along a circuit, lap after lap; a post is a distance, a height and the radius from there on. */
export function lineOf(posts: readonly (readonly [number, number, number?])[]) {
  const lap_m = posts[posts.length - 1]![0];
  const heights = posts.map(([d, h]) => [d, h] as const);
  const angles: [number, number][] = [[0, 0]];
  for (let i = 1; i < posts.length; i++) {
    const [from_m, , radius_m] = posts[i - 1]!;
    const length_m = posts[i]![0] - from_m;
    angles.push([posts[i]![0], angles[i - 1]![1] + (radius_m ? length_m / radius_m : 0)]);
  }
  const lapTurn = angles[angles.length - 1]![1];
  const laps = (s: number) => Math.floor(s / lap_m);
  return {
    height: (s: number) => between(heights, s - laps(s) * lap_m),
    turned: (s: number) => laps(s) * lapTurn + between(angles, s - laps(s) * lap_m),
  };
}
