import { endsOf } from "../doubt/typed.js";
import { type Notes, shown } from "../errors.js";
import type { PlanDefinition, RollingLoco } from "../parts/files.keys.js";
import { resistanceKeys } from "../parts/vehicle.keys.js";

const { bearings: kinds, rolling: usual } = resistanceKeys;

/** Typed in one unit and held in another, a figure may miss an end by rounding. */
const SLACK = 1e-9;

/**
 * Warns of a rolling resistance that is told as more than its kind of bearings has on average club track. Stops count all that
 * the low end of its doubt leaves of it: readings under the heading of another unit make every stop look shorter than it is.
 */
export function lookForStiff(loco: RollingLoco, plan: PlanDefinition, notes: Notes): void {
  const own = loco.resistance?.bearings ?? kinds.default.value;
  const vehicles = [
    { path: "loco.resistance", rolling: loco.resistance?.rolling, bearings: own, told: loco.resistance?.bearings },
    ...(plan.cars ?? []).map(({ rolling, bearings }, i) => ({
      path: `plan.cars.${i + 1}`,
      rolling,
      bearings: bearings ?? own,
      told: bearings ?? loco.resistance?.bearings,
    })),
  ];
  for (const { path, rolling, bearings, told } of vehicles) {
    if (rolling === undefined) continue;
    const doubt = notes.doubts?.[`${path}.rolling`];
    const [low] = doubt ? endsOf(rolling, doubt) : [rolling];
    const [least, most] = usual.default.range[bearings] as [number, number];
    if (low <= most * (1 + SLACK)) continue;
    const counted = doubt ? `, ${shown(low)} at its low end,` : "";
    const kind = `${bearings} bearings${told === undefined ? " (assumed, no kind is told)" : ""}`;
    notes.warnings.push({
      code: "rolls_stiffly",
      path: `${path}.rolling`,
      message: `${shown(rolling)}${counted} is more than ${kind} have on average club track, ${shown(least)} to ${shown(most)} (common practice, no source); stops are judged by it, and bearings that run free stop later. Look at the unit it was read in, and measure it again`,
    });
  }
}
