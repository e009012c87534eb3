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

/** In times of what the files have, and no more than that: as free as the log leaves it, and as the log by itself has it. */
export interface Rolls {
  rolls: number;
  rolls_about: number;
}

/**
 * How freely a log leaves the train to roll, in times of what the files have: what stops and standing must count. By least
 * squares as a fit has it, in one step, every other figure's doubt and the meters' counted. Rolling that comes out lower by
 * one standard deviation or more counts at the low end of nineteen in twenty; by less, in proportion, so that a log which
 * agrees to a hair changes nothing; rolling that comes out higher is no ground to count on more. Null where the log cannot tell.
 */
export function rollsIn(basis: Basis, plan: Plan, ask: (plan: Plan) => ByCell): Rolls | null {
  const { moved, logged, predicted } = basis;
  const residuals = withoutSpeed(basis.residuals);
  const meters = metersOf(residuals, logged);
  const rough = speedingUp(residuals, moved);
  // What one more of it does.
  const freer = ranged(residuals, less(ask(rollingTimes(plan, TRIED)), predicted));
  const column = freer.map((each) => each / (TRIED - 1));
  const [off] = left(residuals, [column, ...rough], meters).amounts;
  const rest = residuals.values.map((each, i) => each - off * column[i]);
  const others = moved.figures.filter(({ doubt }) => !ROLLING.test(doubt.path));
  const moves = others.map((each) => ranged(residuals, each.moves));
  const [[variance]] = covarianceOf(loosened({ ...residuals, values: rest }), [column, ...rough], meters, moves, 1);
  const sd = Math.sqrt(variance);
  if (!(sd < LEAST_TOLD)) return null;
  if (off >= 0) return { rolls: 1, rolls_about: 1 };
  const rolls = 1 + off - NINETEEN_IN_TWENTY * sd * Math.min(1, -off / sd);
  return { rolls: Math.max(0, rolls), rolls_about: Math.max(0, 1 + off) };
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
