import { gradientsFelt } from "../../train/line.js";
import type { Plan } from "../../train/plan.js";
import type { Basis } from "./basis.js";
import type { Compared } from "./cells.js";
import type { Journey } from "./journey.js";
import { TOLD_BY_LOAD } from "./predict.js";
import { byPiece, doubtOver } from "./quantities.js";

/** How much of the line a log tells of. */
export interface Covers {
  /** Share of a lap, or of the line from end to end, that the train ran over in it; at most 1. */
  ran: number;
  /** Share of that whole in which current, volts or duty would have shown another load than the sums have. */
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

/** Metres of the log in which something is compared that tells of the place, if it tells. */
export function comparedIn({ residuals, cells }: Basis, { length_m }: Journey): number {
  const compared = new Set(residuals.at.filter(({ name }) => !SLOW.has(name)).map(({ cell }) => cell));
  return Math.min(length_m, compared.size * cells.cell_m);
}

/**
 * What is left open, nineteen in twenty, is less than this of what the load makes: then no load at all, or twice as much,
 * would differ even as the worst of all places is judged. Common practice, no source.
 */
const CLEARLY_LESS = 0.5;

/**
 * Pieces of the line in which something would have shown another load. Where the sums have little, as on a fall, it must show
 * one that is pulled as in the mean.
 */
function toldIn(basis: Basis): Set<number> {
  const pieces = new Set<number>();
  for (const name of TOLD_BY_LOAD) {
    if (!basis.residuals.quantities.includes(name)) continue;
    const load = basis.load[name];
    const over = (cells: readonly number[]) => {
      const known = cells.filter((i) => !Number.isNaN(load[i]));
      return Math.abs(known.reduce((sum, i) => sum + load[i], 0) / Math.max(1, known.length));
    };
    const usual = over([...load.keys()]);
    for (const [piece, cells] of byPiece(basis, name))
      if (doubtOver(basis, name, cells, true) < CLEARLY_LESS * Math.max(usual, over(cells))) pieces.add(piece);
  }
  return pieces;
}

/**
 * What was not run over, or could not have told, is not agreed with: less than a lap of a circuit, or than the line from end to end, is too little,
 * and so is what leaves out the steepest bits, or a quarter of it.
 */
export function coversOf(basis: Basis, { length_m: ran_m }: Journey, { train, track }: Plan): Covers {
  const { cells } = basis;
  const whole_m = track.kind === "circuit" ? track.length_m : track.length_m - train.length_m;
  const pieces = toldIn(basis);
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
