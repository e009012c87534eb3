/** The least and the greatest of any number of values; from Infinity down to -Infinity where there are none. */
export function extent(values: readonly number[]): [least: number, most: number] {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const each of values) {
    if (each < least) least = each;
    if (each > most) most = each;
  }
  return [least, most];
}
