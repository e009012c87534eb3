import { mean } from "simple-statistics";
import { NINETEEN_IN_TWENTY, normalQuantile } from "../../numeric/quantile.js";
import type { Basis } from "./basis.js";
import { type Compared, pieceOf } from "./cells.js";
import { LOGGED } from "./log.js";
import { READ_WITH } from "./weigh.js";

/** A quantity as it was logged and as the sums have it, over the pieces of line that both tell of. */
export interface QuantityCompared {
  name: Compared;
  unit: string;
  /** In the mean. */
  logged: number;
  predicted: number;
  /** Logged less predicted: in the mean, and the root of the mean square. */
  bias: number;
  rms: number;
  /** Nineteen in twenty of what both leave open lie within this of no bias. */
  doubt: number;
  mean_within_doubt: boolean;
  /** In the mean, and at every place along the line. */
  within_doubt: boolean;
  /**
   * Where along the line, over all laps, they differ most against what is left open there; nineteen in twenty of the worst
   * of so many places lie within its doubt.
   */
  worst: { from_m: number; to_m: number; difference: number; doubt: number };
}

/** A piece of the line, in the mean over the laps; a quantity is absent where either tells nothing. */
export interface PlaceCompared {
  from_m: number;
  to_m: number;
  quantities: { name: Compared; logged: number; predicted: number; doubt: number }[];
}

export function quantitiesOf(basis: Basis): QuantityCompared[] {
  return basis.residuals.quantities.map((name) => {
    const cells = [...basis.logged[name].keys()].filter((i) => toldIn(basis, name, i));
    const off = cells.map((i) => basis.logged[name][i] - basis.predicted[name][i]);
    const bias = mean(off);
    const doubt = doubtOver(basis, name, cells);
    const worst = worstOf(basis, name);
    const mean_within_doubt = Math.abs(bias) <= doubt;
    return {
      name,
      unit: LOGGED[name],
      logged: mean(cells.map((i) => basis.logged[name][i])),
      predicted: mean(cells.map((i) => basis.predicted[name][i])),
      bias,
      rms: Math.sqrt(mean(off.map((each) => each * each))),
      doubt,
      mean_within_doubt,
      within_doubt: mean_within_doubt && Math.abs(worst.difference) <= worst.doubt,
      worst,
    };
  });
}

/** Of many places the worst is farther off by chance than any one would be (Bonferroni's bound, each side). */
function worstOf(basis: Basis, name: Compared): QuantityCompared["worst"] {
  const along = byPiece(basis, name);
  const wider = normalQuantile(1 - 0.025 / along.length) / NINETEEN_IN_TWENTY;
  const places = along.map(([piece, of]) => ({
    ...edgesOf(basis, piece),
    difference: mean(of.map((i) => basis.logged[name][i] - basis.predicted[name][i])),
    doubt: wider * doubtOver(basis, name, of, true),
  }));
  const share = ({ difference, doubt }: (typeof places)[number]) => Math.abs(difference) / doubt;
  return places.reduce((most, each) => (share(each) > share(most) ? each : most));
}

export function placesOf(basis: Basis): PlaceCompared[] {
  const pieces = basis.residuals.quantities.map((name) => ({ name, along: new Map(byPiece(basis, name)) }));
  return Array.from({ length: basis.cells.round }, (_, piece) => ({
    ...edgesOf(basis, piece),
    quantities: pieces.flatMap(({ name, along }) => {
      const of = along.get(piece);
      if (!of) return [];
      const [logged, predicted] = [basis.logged, basis.predicted].map((each) => mean(of.map((i) => each[name][i])));
      return [{ name, logged, predicted, doubt: doubtOver(basis, name, of, true) }];
    }),
  })).filter(({ quantities }) => quantities.length > 0);
}

const toldIn = ({ logged, predicted }: Basis, name: Compared, i: number): boolean =>
  !Number.isNaN(logged[name][i] - predicted[name][i]);

/** The cells of each piece of the line, whatever the lap. */
export function byPiece(basis: Basis, name: Compared): [piece: number, cells: number[]][] {
  const pieces = new Map<number, number[]>();
  for (let i = 0; i < basis.logged[name].length; i++) {
    if (!toldIn(basis, name, i)) continue;
    const piece = pieceOf(basis.cells, i);
    pieces.set(piece, [...(pieces.get(piece) ?? []), i]);
  }
  return [...pieces];
}

const edgesOf = ({ cells: { cell_m } }: Basis, piece: number) => ({
  from_m: piece * cell_m,
  to_m: (piece + 1) * cell_m,
});

/**
 * Of the mean over some cells: what every figure moves it by, and the meter; at one place the survey there, where it truly
 * was, and chance too.
 */
export function doubtOver(basis: Basis, name: Compared, cells: readonly number[], onePlace = false): number {
  const { moved, logged, residuals } = basis;
  const over = (of: Float64Array) => mean(cells.map((i) => (Number.isNaN(of[i]) ? 0 : of[i])));
  const figures = moved.figures.reduce((sum, { moves }) => sum + over(moves[name]) ** 2, 0);
  const { gain, besides } = READ_WITH[name];
  const meter = (gain * over(logged[name])) ** 2 + besides ** 2;
  if (!onePlace) return NINETEEN_IN_TWENTY * Math.sqrt(figures + meter);
  const astray = mean(cells.map((i) => steepnessAt(basis, name, i))) * basis.astray_m;
  const chance = noiseOf(residuals, name) ** 2 / cells.length;
  return NINETEEN_IN_TWENTY * Math.sqrt(figures + meter + over(moved.survey[name]) ** 2 + astray ** 2 + chance);
}

/** How much what the sums say changes along the line there, by the metre. */
function steepnessAt({ predicted, cells: { cell_m } }: Basis, name: Compared, i: number): number {
  const changes = [-1, 1].map((way) => Math.abs(predicted[name][i + way] - predicted[name][i]) / cell_m);
  return Math.max(0, ...changes.filter(Number.isFinite));
}

function noiseOf({ at, noise }: Basis["residuals"], name: Compared): number {
  const i = at.findIndex((each) => each.name === name);
  return i < 0 ? 0 : noise[i];
}
