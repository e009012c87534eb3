import { type Doubtful, doubtOf } from "../../doubt/doubts.js";
import { askDrawn } from "../../doubt/draw.js";
import { RunError } from "../../errors.js";
import type { PlanFiles } from "../../studies/limits/limits.js";
import { createPlan, type Plan } from "../../train/plan.js";
import { type ByCell, byCell, COMPARED, less } from "./cells.js";

/** What one figure's doubt does to what the sums say: one standard deviation of it, by pieces of the line. */
export interface Sensitivity {
  readonly doubt: Doubtful;
  readonly moves: ByCell;
}

export interface Sensitivities {
  readonly figures: readonly Sensitivity[];
  /** One standard deviation of what another survey of the line would do, by pieces. */
  readonly survey: ByCell;
}

/** Figures, and how far each is from its middle. */
export interface Held {
  readonly lines: readonly Doubtful[];
  readonly z: Float64Array;
}

/** Other surveys that are looked at: enough for a width. */
const SURVEYS = 6;
/** Less than this of any quantity is nothing, in its own unit. */
const NOTHING = 1e-9;

/**
 * The law of propagation of uncertainty (JCGM 100:2008, 5.1): every figure in doubt moved by itself by one standard
 * deviation, all else left.
 * @param ask what the sums say of a plan, by pieces
 * @param held figures that are elsewhere, and stay there
 */
export function sensitivities(
  files: PlanFiles,
  middle: ByCell,
  ask: (plan: Plan) => ByCell,
  held: Held = { lines: [], z: new Float64Array() },
): Sensitivities {
  const free = doubtOf(files).filter(({ path }) => !held.lines.some((line) => line.path === path));
  const doubts = [...held.lines, ...free];
  /** @param of standard deviations of the free ones */
  const moved = (of: Float64Array, seed: number): ByCell | null => {
    const z = Float64Array.from([...held.z, ...of]);
    try {
      return askDrawn(files, doubts, z, seed, (drawn) =>
        less(ask(createPlan(drawn.plan, drawn.loco, seed === 0 ? files.track : drawn.track, drawn.tables)), middle),
      );
    } catch (error) {
      // A figure that far off makes a run that cannot be finished: it is left where it is.
      if (error instanceof RunError) return null;
      throw error;
    }
  };
  const figures = free.flatMap((doubt, i) => {
    const moves = moved(
      Float64Array.from(free, (_, k) => (k === i ? 1 : 0)),
      0,
    );
    return moves && COMPARED.some((name) => moves[name].some((each) => Math.abs(each) > NOTHING))
      ? [{ doubt, moves }]
      : [];
  });
  const surveys = Array.from({ length: SURVEYS }, (_, i) => moved(new Float64Array(free.length), i + 1));
  return {
    figures,
    survey: spreadOf(
      surveys.filter((each) => each !== null),
      middle,
    ),
  };
}

function spreadOf(all: readonly ByCell[], like: ByCell): ByCell {
  return byCell((name) =>
    like[name].map((_, i) => {
      const told = all.map((each) => each[name][i]).filter((each) => !Number.isNaN(each));
      return told.length === 0 ? 0 : Math.sqrt(told.reduce((sum, each) => sum + each * each, 0) / told.length);
    }),
  );
}
