import { NINETEEN_IN_TWENTY } from "../../numeric/quantile.js";
import type { ByCell } from "./cells.js";
import type { Sensitivities } from "./sensitivity.js";
import { left, metersOf, READ_WITH, type Residuals, ranged, speedingUp } from "./weigh.js";

/** A figure that would explain what differs, were it otherwise. */
export interface Explanation {
  path: string;
  /** What it is taken as, in SI units; of a table or the grip, 1: a factor. */
  value: number;
  /** What it would have to be. */
  would_be: number;
  /** Of what figures can explain at all of what differs, in squares, how much that explains. */
  share: number;
  /** Is it within what is likely of it, nineteen in twenty? */
  likely: boolean;
}

const LEAST_SHARE = 0.3;
const MOST = 3;
/**
 * No figure is looked for farther off, standard deviations, and none that is nearer: nobody weighs half of what people do. What
 * a train rolls with is known to nobody before it is measured, and is looked for farther off.
 */
const FARTHEST = 3;
const FARTHEST_ROLLING = 8;
const NEAREST = 0.3;
/** Squares that chance takes off by one figure less than once in a hundred. */
const BY_CHANCE = 6.63;
/** Who rides is what passengers weigh, once more. */
const WHO_RIDES = "plan.passengers";
/** How far all figures together may go, to tell what can be explained at all. */
const TOGETHER = 3;

/**
 * Which figure, were it otherwise, would make the sums agree: each by itself, along the line as well as in the mean, with
 * the meters as far off as they may be.
 */
export function explained(residuals: Residuals, { figures }: Sensitivities, logged: ByCell): Explanation[] {
  if (!differ(residuals, logged)) return [];
  const meters = metersOf(residuals, logged);
  const columns = figures.map(({ moves }) => ranged(residuals, moves));
  const rough = speedingUp(residuals, { figures });
  const before = left(residuals, rough, meters).squares;
  // What differs, the meters taken at their word; and what of it figures can explain at all.
  const differs = left(residuals, [], []).squares;
  const together = columns.map((column) => column.map((each) => TOGETHER * each));
  const explicable = differs - left(residuals, [], together).squares;
  return figures
    .map(({ doubt }, i) => {
      const { squares, amounts } = left(residuals, [columns[i], ...rough], meters);
      const z = Math.abs(amounts[0]);
      return {
        z,
        gain: before - squares,
        // At the end of what its key takes it is not what would explain it.
        held: doubt.at(doubt.middle, amounts[0]) === doubt.at(doubt.middle, 0.9 * amounts[0]),
        told: {
          path: doubt.path,
          value: doubt.middle,
          would_be: doubt.at(doubt.middle, amounts[0]),
          share: Math.min(1, (differs - left(without(residuals, columns[i], amounts[0]), [], []).squares) / explicable),
          likely: z <= NINETEEN_IN_TWENTY,
        },
      };
    })
    .filter(({ told, held }) => told.path !== WHO_RIDES && !held)
    .filter(({ told, gain, z }) => gain > BY_CHANCE && told.share >= LEAST_SHARE && z <= farthest(told) && z >= NEAREST)
    .sort((a, b) => worth(b.told) - worth(a.told))
    .slice(0, MOST)
    .map(({ told }) => told);
}

const farthest = ({ path }: Explanation): number => (/\.rolling$/.test(path) ? FARTHEST_ROLLING : FARTHEST);

/** Does any quantity differ by more than its meter may be off? */
function differ({ quantities, at, values }: Residuals, logged: ByCell): boolean {
  return quantities.some((name) => {
    const own = [...values.keys()].filter((i) => at[i].name === name);
    const mean = (of: (i: number) => number) => own.reduce((sum, i) => sum + of(i), 0) / own.length;
    const { gain, besides } = READ_WITH[name];
    const meter = Math.hypot(gain * mean((i) => logged[name][at[i].cell]), besides);
    return Math.sqrt(mean((i) => values[i] ** 2)) > NINETEEN_IN_TWENTY * meter;
  });
}

/** What is likely first, unless another explains twice as much. */
const worth = ({ share, likely }: Explanation): number => (likely ? 2 : 1) * share;

const without = (residuals: Residuals, column: Float64Array, z: number): Residuals => ({
  ...residuals,
  values: residuals.values.map((each, i) => each - z * column[i]),
});
