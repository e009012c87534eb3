import type { Basis } from "./basis.js";
import { type Compared, pieceOf } from "./cells.js";

/** What tells of the line: where it climbs, these rise. */
const TELLING = ["battery_current", "motor_current", "duty"] as const satisfies readonly Compared[];
/** Squares that are left, of those that are left where it was laid: no other place is worth a word with more. */
const WORTH = 0.5;

/**
 * Where on a circuit the log would begin to lie better along what the sums have, the speed taken to be much the same
 * everywhere: a hint to be tried, no more. Null where none is much better, or the log does not go round.
 */
export function betterBegun(basis: Basis, begins_m: number, length_m: number): number | null {
  const { round, cell_m } = basis.cells;
  const name = TELLING.find((each) => basis.residuals.quantities.includes(each));
  if (!name) return null;
  const [logged, predicted] = [basis.logged, basis.predicted].map((of) => byPiece(basis, of[name]));
  if (logged.filter(Number.isNaN).length > round / 4) return null;
  const squares = Array.from({ length: round }, (_, shift) => {
    let [sum, count, mean] = [0, 0, 0];
    for (let piece = 0; piece < round; piece++) {
      const off = logged[piece] - predicted[(piece + shift) % round];
      if (Number.isNaN(off)) continue;
      sum += off * off;
      mean += off;
      count++;
    }
    // What differs everywhere alike says nothing of the place.
    return count > round / 2 ? sum / count - (mean / count) ** 2 : Number.POSITIVE_INFINITY;
  });
  const best = squares.reduce((least, each, shift) => (each < squares[least] ? shift : least), 0);
  return best !== 0 && squares[best] < WORTH * squares[0] ? (begins_m + best * cell_m) % length_m : null;
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
