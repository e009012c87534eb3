import { gammaln } from "simple-statistics";

/** Continued fraction of the incomplete beta function, by Lentz's method. */
function betaFraction(a: number, b: number, x: number): number {
  const tiny = 1e-300;
  const clear = (value: number) => (Math.abs(value) < tiny ? tiny : value);
  let c = 1;
  let d = 1 / clear(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m < 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / clear(1 + even * d);
    c = clear(1 + even / c);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / clear(1 + odd * d);
    c = clear(1 + odd / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return h;
}

/** The regularised incomplete beta function (Abramowitz and Stegun 26.5.8). */
function incompleteBeta(a: number, b: number, x: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(gammaln(a + b) - gammaln(a) - gammaln(b) + a * Math.log(x) + b * Math.log(1 - x));
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(a, b, x)) / a : 1 - (front * betaFraction(b, a, 1 - x)) / b;
}

/** Share of Student's distribution that lies farther out than ±t. */
const outside = (t: number, freedom: number): number => incompleteBeta(freedom / 2, 0.5, freedom / (freedom + t * t));

/**
 * Nineteen in twenty of Student's distribution lie within ± this many standard errors, by halving.
 * @param freedom degrees of freedom, from 1
 */
export function studentWithin(freedom: number, share = 0.95): number {
  let [low, high] = [0, 1];
  while (outside(high, freedom) > 1 - share) high *= 2;
  for (let i = 0; i < 200 && high - low > 1e-13 * high; i++) {
    const middle = (low + high) / 2;
    if (outside(middle, freedom) > 1 - share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
