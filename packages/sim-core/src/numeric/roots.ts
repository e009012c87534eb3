/**
 * Where a continuous function is zero between two places that lie on either side of it.
 *
 * R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4: inverse quadratic steps while they
 * help, halving when they do not, so that it is never slower than halving.
 *
 * @param tolerance how far from the zero the answer may lie, over and above rounding
 * @throws RangeError if the function has the same sign, or no value, at both ends
 */
export function root(f: (x: number) => number, from: number, to: number, tolerance = 0): number {
  let a = from;
  let b = to;
  let fa = f(a);
  let fb = f(b);
  if (!(fa * fb <= 0)) {
    throw new RangeError(`no zero is enclosed between ${from} (value ${fa}) and ${to} (value ${fb})`);
  }
  // b is the best estimate, c the last place on its other side, a the estimate before it.
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (;;) {
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const near = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (Math.abs(half) <= near || fb === 0) return b;
    const tried = Math.abs(before) >= near && Math.abs(fa) > Math.abs(fb) ? interpolated(a, b, c, fa, fb, fc) : half;
    const inside =
      tried * half > 0 && Math.abs(tried) < Math.min(1.5 * Math.abs(half) - near / 2, Math.abs(before) / 2);
    before = inside ? step : half;
    step = inside ? tried : half;
    a = b;
    fa = fb;
    b += Math.abs(step) > near ? step : near * Math.sign(half);
    fb = f(b);
  }
}

/** The step from `b` by the parabola in y through three points, or by the chord where only two differ. */
function interpolated(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const s = fb / fa;
  if (a === c) return ((b - a) * s) / (1 - s);
  const q = fa / fc;
  const r = fb / fc;
  return (s * ((c - b) * q * (q - r) - (b - a) * (r - 1))) / -((q - 1) * (r - 1) * (s - 1));
}
