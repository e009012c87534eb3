import type { Basis } from "./basis.js";
import type { Compared } from "./cells.js";
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
  within_doubt: boolean;
  /** Where along the line they differ most, over all laps. */
  worst: { from_m: number; to_m: number; difference: number; doubt: number };
}

/** A piece of the line, in the mean over the laps; a quantity is absent where either tells nothing. */
export interface PlaceCompared {
  from_m: number;
  to_m: number;
  quantities: { name: Compared; logged: number; predicted: number; doubt: number }[];
}

const NINETEEN_IN_TWENTY = 1.959963984540054;

export function quantitiesOf(basis: Basis): QuantityCompared[] {
  return basis.residuals.quantities.map((name) => {
    const cells = [...basis.logged[name].keys()].filter((i) => toldIn(basis, name, i));
    const off = cells.map((i) => basis.logged[name][i] - basis.predicted[name][i]);
    const bias = mean(off);
    const doubt = doubtOver(basis, name, cells);
    const along = byPiece(basis, name);
    const [piece, of] = along.reduce((most, each) =>
      excess(each[1], basis, name) > excess(most[1], basis, name) ? each : most,
    );
    return {
      name,
      unit: LOGGED[name],
      logged: mean(cells.map((i) => basis.logged[name][i])),
      predicted: mean(cells.map((i) => basis.predicted[name][i])),
      bias,
      rms: Math.sqrt(mean(off.map((each) => each * each))),
      doubt,
      within_doubt: Math.abs(bias) <= doubt,
      worst: {
        ...edgesOf(basis, piece),
        difference: mean(of.map((i) => basis.logged[name][i] - basis.predicted[name][i])),
        doubt: doubtOver(basis, name, of, true),
      },
    };
  });
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
function byPiece(basis: Basis, name: Compared): [piece: number, cells: number[]][] {
  const { round, first } = basis.cells;
  const pieces = new Map<number, number[]>();
  for (let i = 0; i < basis.logged[name].length; i++) {
    if (!toldIn(basis, name, i)) continue;
    const piece = (((first + i) % round) + round) % round;
    pieces.set(piece, [...(pieces.get(piece) ?? []), i]);
  }
  return [...pieces];
}

const edgesOf = ({ cells: { cell_m } }: Basis, piece: number) => ({
  from_m: piece * cell_m,
  to_m: (piece + 1) * cell_m,
});

const excess = (cells: readonly number[], { logged, predicted }: Basis, name: Compared): number =>
  Math.abs(mean(cells.map((i) => logged[name][i] - predicted[name][i])));

/** Of the mean over some cells: what every figure moves it by, and the meter; at one place the survey there and chance too. */
function doubtOver(basis: Basis, name: Compared, cells: readonly number[], onePlace = false): number {
  const { moved, logged, residuals } = basis;
  const over = (of: Float64Array) => mean(cells.map((i) => (Number.isNaN(of[i]) ? 0 : of[i])));
  const figures = moved.figures.reduce((sum, { moves }) => sum + over(moves[name]) ** 2, 0);
  const { gain, besides } = READ_WITH[name];
  const meter = (gain * over(logged[name])) ** 2 + besides ** 2;
  const chance = onePlace ? over(moved.survey[name]) ** 2 + noiseOf(residuals, name) ** 2 / cells.length : 0;
  return NINETEEN_IN_TWENTY * Math.sqrt(figures + meter + chance);
}

function noiseOf({ at, noise }: Basis["residuals"], name: Compared): number {
  const i = at.findIndex((each) => each.name === name);
  return i < 0 ? 0 : noise[i];
}

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;
