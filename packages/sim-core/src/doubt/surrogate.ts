/** Values of the figures in doubt at one draw, as columns take them: each in its own standard deviations. */
export type Row = ArrayLike<number>;

/** A quantity as a sum of few terms in the figures in doubt, fitted to draws of the whole simulation. */
export interface Surrogate {
  /** Which figures it has terms in. */
  readonly figures: readonly number[];
  readonly at: (row: Row) => number;
  /** What the terms leave over of the draws: with it the spread is as wide as theirs. */
  readonly residuals: Float64Array;
  /** Share of the variance that the terms leave over; 0 where nothing varies. */
  readonly unexplained: number;
  readonly terms: readonly (Term & { readonly factor: number })[];
}

/** A figure, its square, or a product of two. */
interface Term {
  readonly i: number;
  readonly j: number;
}

const termAt = ({ i, j }: Term, row: Row): number => (j < 0 ? row[i] : row[i] * row[j]);

/** No more terms than a share of the draws, or they would follow the draws and not the quantity. */
const TERMS_PER_DRAW = 0.25;
/** Products are looked for among so many figures. */
const MOST_CROSSED = 6;

/**
 * Fits by orthogonal matching pursuit (Pati, Rezaiifar and Krishnaprasad 1993): the term that goes best with what is left
 * over is taken in, until none goes with it better than chance lets the best of so many go (Donoho and Johnstone's universal
 * threshold). That is the screening: of some seventy figures a handful moves an answer.
 */
export function fitSurrogate(rows: readonly Row[], values: ArrayLike<number>): Surrogate {
  const n = rows.length;
  const figures = rows[0]?.length ?? 0;
  const mean = meanOf(values);
  let left = Float64Array.from(values, (value) => value - mean);
  const whole = squares(left);
  const terms: Term[] = [];
  const means: number[] = [];
  const unit: Float64Array[] = [];
  const upper: number[][] = [];
  const along: number[] = [];

  /** Takes in the best of the candidates; false where none is better than chance. */
  const takeIn = (candidates: readonly Term[]): boolean => {
    const chance = Math.sqrt((2 * Math.log(Math.max(2, candidates.length))) / n);
    let best: { term: Term; column: Float64Array; mean: number; upper: number[]; goes: number } | undefined;
    for (const term of candidates) {
      if (terms.some(({ i, j }) => i === term.i && j === term.j)) continue;
      const raw = Float64Array.from(rows, (row) => termAt(term, row));
      const middle = meanOf(raw);
      const column = raw.map((value) => value - middle);
      const before = Math.sqrt(squares(column));
      const parts = unit.map((each) => {
        const part = dot(each, column);
        for (let k = 0; k < n; k++) column[k] -= part * each[k];
        return part;
      });
      const length = Math.sqrt(squares(column));
      if (!(length > 1e-6 * before)) continue;
      for (let k = 0; k < n; k++) column[k] /= length;
      const goes = Math.abs(dot(column, left)) / Math.sqrt(squares(left));
      if (!best || goes > best.goes) best = { term, column, mean: middle, upper: [...parts, length], goes };
    }
    if (!best || !(best.goes > chance)) return false;
    const part = dot(best.column, left);
    left = left.map((value, k) => value - part * (best as { column: Float64Array }).column[k]);
    terms.push(best.term);
    means.push(best.mean);
    unit.push(best.column);
    upper.push(best.upper);
    along.push(part);
    return true;
  };

  const most = Math.floor(TERMS_PER_DRAW * n);
  const single = Array.from({ length: figures }, (_, i): Term => ({ i, j: -1 }));
  const worthIt = () => squares(left) > 1e-12 * whole && terms.length < most;
  while (worthIt() && takeIn(single)) {}
  const crossed = [...new Set(terms.map(({ i }) => i))].slice(0, MOST_CROSSED);
  const curved = crossed.flatMap((i, k) => crossed.slice(k).map((j): Term => ({ i, j })));
  while (worthIt() && takeIn([...single, ...curved])) {}

  const factors = backSubstituted(upper, along);
  const wider = Math.sqrt(n / Math.max(1, n - 1 - terms.length));
  return {
    figures: [...new Set(terms.flatMap(({ i, j }) => (j < 0 ? [i] : [i, j])))],
    at: (row) => terms.reduce((sum, term, k) => sum + factors[k] * (termAt(term, row) - means[k]), mean),
    residuals: left,
    unexplained: whole > 0 ? (squares(left) * wider ** 2) / whole : 0,
    terms: terms.map((term, k) => ({ ...term, factor: factors[k] })),
  };
}

/**
 * Of the variance of a quantity, what each figure accounts for by itself: the first-order share of Sobol' (1993), by the
 * terms in that figure alone over points in which figures are independent of each other.
 * @param rows such points, other than those of the fit
 */
export function sharesOf({ terms, figures, at, residuals }: Surrogate, rows: readonly Row[]): Map<number, number> {
  const whole = varianceOf(rows.map(at)) + varianceOf(residuals);
  const alone = (figure: number) => terms.filter(({ i, j }) => i === figure && (j < 0 || j === figure));
  return new Map(
    figures.map((figure) => {
      const own = rows.map((row) => alone(figure).reduce((sum, term) => sum + term.factor * termAt(term, row), 0));
      return [figure, whole > 0 ? varianceOf(own) / whole : 0];
    }),
  );
}

const varianceOf = (values: ArrayLike<number>): number => {
  const mean = meanOf(values);
  return squares(Float64Array.from(values, (value) => value - mean)) / Math.max(1, values.length);
};

/** @param upper column by column, its diagonal last */
function backSubstituted(upper: readonly number[][], along: readonly number[]): number[] {
  const factors = [...along];
  for (let k = factors.length - 1; k >= 0; k--) {
    factors[k] /= upper[k][k];
    for (let row = 0; row < k; row++) factors[row] -= upper[k][row] * factors[k];
  }
  return factors;
}

const meanOf = (values: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i];
  return values.length > 0 ? sum / values.length : 0;
};

const dot = (a: ArrayLike<number>, b: ArrayLike<number>): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
};

const squares = (values: ArrayLike<number>): number => dot(values, values);
