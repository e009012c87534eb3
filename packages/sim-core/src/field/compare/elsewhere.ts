import type { Basis } from "./basis.js";
import { type Compared, pieceOf } from "./cells.js";
import type { Journey } from "./journey.js";

/** What tells of the line: where it climbs, these rise. */
const TELLING = ["battery_current", "motor_current", "duty"] as const satisfies readonly Compared[];
/** Squares that are left, of those that are left where it was laid: no other place is worth a word with more. */
const WORTH = 0.5;

/**
 * Where on a circuit the log would begin to lie better along what the sums have, the speed taken to be much the same
 * everywhere: a hint to be tried, no more. Null where none is much better, or the log does not go round.
 */
export function betterBegun(basis: Basis, { begins_m }: Journey, length_m: number): number | null {
  const { round, cell_m } = basis.cells;
  const name = TELLING.find((each) => basis.residuals.quantities.includes(each));
  if (!name) return null;
  const [logged, predicted] = [basis.logged, basis.predicted].map((of) => byPiece(basis, of[name]));
  if (logged.filter(Number.isNaN).length > round / 4) return null;
  const squares = Array.from({ length: round }, (_, shift) =>
    squaresOf(
      logged.map((each, piece) => each - predicted[(piece + shift) % round]),
      round / 2,
    ),
  );
  const best = squares.reduce((least, each, shift) => (each < squares[least] ? shift : least), 0);
  return best !== 0 && squares[best] < WORTH * squares[0] ? (begins_m + best * cell_m) % length_m : null;
}

/** Scales of a distance that a wheel's diameter may be off by, and how far apart they are tried. */
const SCALED = { from: 0.8, to: 1.25, by: 0.005 } as const;
/** No scale nearer to one is worth a word: it moves the end of a lap by a train's length. */
const LEAST_SCALED = 0.015;
/** Of a lap: a log of less does not tell a scale from a beginning. */
const ROUND = 1.2;

/**
 * What a metre of the log would be of the line's for it to lie better along what the sums have: a wheel's diameter, or a
 * receiver, that is off. A hint as above; null where none is much better, or the log is of little more than a lap.
 */
export function betterScaled(basis: Basis, journey: Journey, length_m: number): number | null {
  if (journey.length_m < ROUND * length_m) return null;
  const { cells } = basis;
  const name = TELLING.find((each) => basis.residuals.quantities.includes(each));
  if (!name) return null;
  const logged = basis.logged[name];
  const predicted = byPiece(basis, basis.predicted[name]);
  const squaresAt = (scale: number) =>
    squaresOf(
      logged.map((each, i) => {
        const run_m = Math.max(0, (i + 0.5) * cells.cell_m - cells.into_m);
        const piece = Math.floor((journey.begins_m + scale * run_m) / cells.cell_m);
        return each - predicted[((piece % cells.round) + cells.round) % cells.round];
      }),
      logged.length / 2,
    );
  let best = 1;
  for (let scale: number = SCALED.from; scale <= SCALED.to; scale += SCALED.by)
    if (squaresAt(scale) < squaresAt(best)) best = scale;
  return Math.abs(best - 1) >= LEAST_SCALED && squaresAt(best) < WORTH * squaresAt(1) ? best : null;
}

/** Mean square of what differs, about its mean: what differs everywhere alike says nothing of the place. */
function squaresOf(off: Float64Array, least: number): number {
  const told = off.filter((each) => !Number.isNaN(each));
  if (told.length <= least) return Number.POSITIVE_INFINITY;
  const mean = told.reduce((sum, each) => sum + each, 0) / told.length;
  return told.reduce((sum, each) => sum + each * each, 0) / told.length - mean ** 2;
}

function byPiece({ cells }: Basis, of: Float64Array): Float64Array {
  const sums = new Float64Array(cells.round);
  const counts = new Float64Array(cells.round);
  for (let i = 0; i < of.length; i++) {
    if (Number.isNaN(of[i])) continue;
    sums[pieceOf(cells, i)] += of[i];
    counts[pieceOf(cells, i)]++;
  }
  return sums.map((sum, piece) => sum / counts[piece]);
}
