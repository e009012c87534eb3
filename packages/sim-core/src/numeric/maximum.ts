const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Where a function with one summit is greatest between two places, by golden section (J. Kiefer, 1953).
 *
 * A summit is flat: its height comes out to rounding, its place only to about the square root of that (1e-8 of the
 * interval), so it stops there.
 */
export function summit(f: (x: number) => number, from: number, to: number): number {
  const near = Math.abs(to - from) * 1e-9;
  let low = from;
  let high = to;
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let atLeft = f(left);
  let atRight = f(right);
  while (Math.abs(high - low) > near) {
    if (atLeft >= atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - GOLDEN * (high - low);
      atLeft = f(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + GOLDEN * (high - low);
      atRight = f(right);
    }
  }
  return (low + high) / 2;
}
