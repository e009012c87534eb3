import { gradientsFelt } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import type { Basis } from "./basis.js";
import { type Compared, pieceOf } from "./cells.js";
import type { Journey } from "./journey.js";

/** How much of the line a log tells of. */
export interface Covers {
  /** Share of a lap, or of the line from end to end, that the train ran over in it; at most 1. */
  ran: number;
  /** Share of that whole in which current, volts or duty could be held beside the sums. */
  share: number;
  /** Are the steepest climb and the steepest fall among what could? */
  steepest: boolean;
  /** Is that enough to say that the loco agrees with the sums? */
  enough: boolean;
}

/** A whole lap or line, as an odometer has it: a wheel's or a receiver's scale is off by so much, common practice, no source. */
const WHOLE = 0.95;
/** Of it so much at least: where it starts and stops nothing can be compared. Common practice, no source. */
const MOST_OF_IT = 0.75;
/** No club lays its rails more level: then nowhere is steep. */
const LEVEL = 1e-3;
/** Speed is what the sums were driven by, and heat is gathered over many places: neither tells of one. */
const SLOW: ReadonlySet<Compared> = new Set(["speed", "temperature"]);

/** Pieces of the journey in which something is compared that tells of the place. */
const toldIn = ({ residuals }: Basis): number[] => [
  ...new Set(residuals.at.filter(({ name }) => !SLOW.has(name)).map(({ cell }) => cell)),
];

/** Metres of the log in which that is so. */
export const comparedIn = (basis: Basis, { length_m }: Journey): number =>
  Math.min(length_m, toldIn(basis).length * basis.cells.cell_m);

/**
 * What was not run over is not agreed with: less than a lap of a circuit, or than the line from end to end, is too little,
 * and so is what leaves out the steepest bits, or a quarter of it.
 */
export function coversOf(basis: Basis, { length_m: ran_m }: Journey, { train, track }: Plan): Covers {
  const { cells } = basis;
  const whole_m = track.kind === "circuit" ? track.length_m : track.length_m - train.length_m;
  const pieces = new Set(toldIn(basis).map((cell) => pieceOf(cells, cell)));
  const share = Math.min(1, (pieces.size * cells.cell_m) / whole_m);
  const ran = Math.min(1, ran_m / whole_m);
  const { up, down } = gradientsFelt(train, track);
  const steepest = [up, down].every(({ share: steep, chainage_m }) => {
    if (Math.abs(steep) < LEVEL) return true;
    const piece = Math.min(cells.round - 1, Math.floor(chainage_m / cells.cell_m));
    // The train is on it with its head a piece before or behind as well.
    return [-1, 0, 1].some((by) => pieces.has((piece + by + cells.round) % cells.round));
  });
  return { ran, share, steepest, enough: ran >= WHOLE && share >= MOST_OF_IT && steepest };
}
