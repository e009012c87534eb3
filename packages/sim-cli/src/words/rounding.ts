/** Up to so many figures, so that what is ordered or counted on by it is not too small; what is not above nothing is 0. */
export function atLeast(value: number, digits = 2): number {
  if (!(value > 0)) return 0;
  const unit = 10 ** (Math.floor(Math.log10(value)) + 1 - digits);
  return Number((Math.ceil(value / unit - 1e-9) * unit).toPrecision(digits));
}
