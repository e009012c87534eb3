/**
 * The standard normal distribution to all its digits: simple-statistics has it to seven (its error function) and to four (its
 * quantile), which is too coarse to draw with.
 */

const density = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/** Where the series gives way to the continued fraction. */
const TAIL = 3;

/**
 * Share above `z`, from 0 up: near the middle by the series z + z³/3 + z⁵/15 …, further out by Laplace's continued fraction
 * (Abramowitz and Stegun 26.2.11 and 26.2.14).
 */
function above(z: number): number {
  if (z < TAIL) {
    let term = z;
    let sum = z;
    for (let k = 3; Math.abs(term) > 1e-17 * sum; k += 2) {
      term *= (z * z) / k;
      sum += term;
    }
    return 0.5 - density(z) * sum;
  }
  let fraction = z;
  for (let k = 200; k > 0; k--) fraction = z + k / fraction;
  return density(z) / fraction;
}

/**
 * The value below which this share of a standard normal distribution lies: Abramowitz and Stegun's 26.2.23, made exact by
 * Newton's steps on the logarithm of the tail.
 * @param share above 0 and below 1
 */
export function normalQuantile(share: number): number {
  if (share === 0.5) return 0;
  const tail = Math.min(share, 1 - share);
  const t = Math.sqrt(-2 * Math.log(tail));
  let z = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  for (let i = 0; i < 6; i++) {
    const q = above(z);
    const step = ((Math.log(q) - Math.log(tail)) * q) / density(z);
    z += step;
    if (Math.abs(step) < 1e-15 * z) break;
  }
  return share < 0.5 ? -z : z;
}

/** Nineteen in twenty of a normal distribution lie within so many standard deviations: `normalQuantile(0.975)`. */
export const NINETEEN_IN_TWENTY = 1.959963984540054;
