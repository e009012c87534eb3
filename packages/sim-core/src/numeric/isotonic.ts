/**
 * The values that never fall and come nearest to the given ones by least squares: neighbours that do fall are pooled at
 * their mean (pool adjacent violators: Ayer, Brunk, Ewing, Reid and Silverman, 1955).
 */
export function neverFalling(values: readonly number[]): number[] {
  const pools: { mean: number; size: number }[] = [];
  for (const value of values) {
    let pool = { mean: value, size: 1 };
    for (let last = pools.at(-1); last && last.mean > pool.mean; last = pools.at(-1)) {
      const size = last.size + pool.size;
      pool = { mean: (last.mean * last.size + pool.mean * pool.size) / size, size };
      pools.pop();
    }
    pools.push(pool);
  }
  return pools.flatMap(({ mean, size }) => Array<number>(size).fill(mean));
}
