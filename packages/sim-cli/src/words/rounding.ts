/** To so many figures, never to the better side. */
export function directed(value: number, digits: number, to: "up" | "down"): number {
  const unit = 10 ** (Math.floor(Math.log10(Math.abs(value) || 1)) + 1 - digits);
  const units = to === "up" ? Math.ceil(value / unit - 1e-9) : Math.floor(value / unit + 1e-9);
  return Number((units * unit).toPrecision(12));
}

/** To two figures and up, so that what is ordered by it is not too small; what is not above nothing is 0. */
export const atLeast = (value: number): number => (value > 0 ? directed(value, 2, "up") : 0);
