import { NINETEEN_IN_TWENTY } from "../../numeric/quantile.js";
import { rollingTimes } from "../../studies/safe.js";
import type { Plan } from "../../train/plan.js";
import type { Basis } from "./basis.js";
import { type ByCell, less } from "./cells.js";
import { covarianceOf } from "./fit.js";
import { left, loosened, metersOf, type Residuals, ranged, speedingUp } from "./weigh.js";

/** Rolling is tried with so many times what the files have. */
const TRIED = 0.75;
/** A log that cannot tell half of it from the whole tells nothing, one standard deviation. */
const LEAST_TOLD = 0.5;
const ROLLING = /(?:^loco\.resistance|^plan\.cars\.\*)\.rolling$/;

/** In times of what the files have; null where the log cannot tell. */
export interface Rolls {
  /** As free as the log leaves it, and as the log by itself has it: no more than 1. */
  rolls: number | null;
  rolls_about: number | null;
  /** As stiff as the log leaves it: no less than 1. */
  stiffens: number | null;
}

/**
 * How freely and how stiffly a log leaves the train to roll: what stops and standing must count, and what starting again
 * must. By least squares as a fit has it, in one step, every other figure's doubt and the meters' counted. Rolling that comes
 * out lower by one standard deviation or more counts at the low end of nineteen in twenty; by less, in proportion, so that a
 * log which agrees to a hair changes nothing. Rolling that comes out higher counts at the high end, for pulling alone. No meter
 * is taken to be off, for one that explains the amps would hide a train that rolls more freely, or pulls worse: its doubt only
 * widens the interval.
 */
export function rollsIn(basis: Basis, plan: Plan, ask: (plan: Plan) => ByCell): Rolls {
  const { moved, logged, predicted } = basis;
  const residuals = withoutSpeed(basis.residuals);
  const meters = metersOf(residuals, logged);
  // What one more of it does.
  const freer = ranged(residuals, less(ask(rollingTimes(plan, TRIED)), predicted));
  const columns = [freer.map((each) => each / (TRIED - 1)), ...speedingUp(residuals, moved)];
  const others = moved.figures.filter(({ doubt }) => !ROLLING.test(doubt.path));
  const moves = others.map((each) => ranged(residuals, each.moves));
  const found = solved(residuals, columns, [...moves, ...meters]);
  return {
    rolls: found && Math.min(1, Math.max(0, found.end)),
    rolls_about: found && Math.min(1, Math.max(0, found.about)),
    stiffens: found && Math.max(1, found.end),
  };
}

/**
 * Of the first column, in times of what the files have: where it lies, and towards its bad end as above.
 * @param doubted what widens it
 */
function solved(
  residuals: Residuals,
  columns: readonly Float64Array[],
  doubted: readonly Float64Array[],
): { about: number; end: number } | null {
  const [off] = left(residuals, columns, []).amounts;
  const rest = residuals.values.map((each, i) => each - off * columns[0][i]);
  const [[variance]] = covarianceOf(loosened({ ...residuals, values: rest }), columns, [], doubted, 1);
  const sd = Math.sqrt(variance);
  if (!(sd < LEAST_TOLD)) return null;
  return { about: 1 + off, end: 1 + off + NINETEEN_IN_TWENTY * Math.sign(off) * Math.min(sd, Math.abs(off)) };
}

/** A speed that the sums do not keep to may have been braked for. */
function withoutSpeed({ quantities, at, values, noise }: Residuals): Residuals {
  const kept = [...at.keys()].filter((i) => at[i].name !== "speed");
  return {
    quantities: quantities.filter((name) => name !== "speed"),
    at: kept.map((i) => at[i]),
    values: Float64Array.from(kept, (i) => values[i]),
    noise: Float64Array.from(kept, (i) => noise[i]),
  };
}
