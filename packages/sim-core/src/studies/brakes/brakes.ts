import { sound } from "../../record/sound.js";
import type { Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import { usualStep_s } from "../once.js";
import { withFreeBearings } from "../safe.js";
import { waysOf } from "../ways.js";
import type { BeyondSight, BrakesAnswer, BrakesRemark, GreatestSpeed, WorstStop } from "./answer.js";
import { alike, type Case, caseOf, peaksOf } from "./cases.js";
import { decelerationLimits } from "./limits.js";
import { parkingWith } from "./parking.js";
import { placesOf, speedOf_mps } from "./places.js";
import { BRAKE_SETS, type BrakeSet, countsOnDrag, isFitted, railsOf } from "./sets.js";
import { brakeWanted, greatestSpeed_mps } from "./sight.js";
import { stopFrom, withNoDrag } from "./stop.js";

export interface BrakesOptions {
  /** Sight distance to judge by. */
  sight_m?: number;
  step_s?: number;
  /** Is the greatest speed of each set looked for? Unless told, it is; the answer has none of them otherwise. */
  greatest?: boolean;
  /** Stops on the worse rail alone, by which they are judged; on each rail unless told. */
  rails?: "worse";
  /** Told which set of brakes is tried next, on which rail. */
  onCase?: (brakes: BrakeSet, rail: string) => void;
}

const SIGHT_m = 20;
/** Coasting and braking are slow enough for a step of the driver's own tenth of a second. */
const COARSE_s = 0.1;

/**
 * Stopping distances from everywhere on the line, with no brake up to every brake, dry and wet; and where the train does
 * not stay when it is left standing. Within sight of the end of a line a driver comes in slowly: those places have their
 * rows but are left out of all that is judged. On the safe side: bearings as free as they may be, and the motor's drag
 * only where it was measured.
 * @throws RunError where a stop cannot be worked out through a fault of the program's own.
 */
export function brakes(asked: Plan, options: BrakesOptions = {}): BrakesAnswer {
  mustBeAsked(options);
  const plan = withFreeBearings(asked);
  const sight_m = options.sight_m ?? SIGHT_m;
  const step_s = options.step_s ?? brakesStep_s(plan);
  const speed_mps = speedOf_mps(plan);
  const ways = waysOf(plan);
  const places = speed_mps > 0 ? ways.flatMap((way) => placesOf(plan, way)) : [];
  const ground = { plan, ways, places, speed_mps, sight_m, step_s };
  const rails = railsOf(plan);
  const worseRail = rails[rails.length - 1];
  const fitted = BRAKE_SETS.filter((set) => isFitted(set, plan.train));
  const cases: Case[] = [];
  for (const set of fitted)
    for (const rail of options.rails === "worse" ? [worseRail] : rails) {
      options.onCase?.(set, rail.rail);
      cases.push(alike(cases, set, rail, plan.train) ?? caseOf(ground, set, rail));
    }
  return sound({
    sight_m,
    reaction_time_s: plan.reaction_s,
    step_s,
    rails: rails.map(({ rail, adhesion }) => ({ rail, grip: adhesion.static })),
    rows: cases.flatMap(({ rows }) => rows),
    worst: cases.flatMap(worstOf),
    not_fitted: BRAKE_SETS.filter((set) => !fitted.includes(set)),
    beyond_sight: cases.map((each) => beyondSight(each, sight_m)),
    greatest_speed: options.greatest === false ? [] : cases.map((each) => greatestSpeed(each, sight_m)),
    deceleration_limits: decelerationLimits(peaksOf(cases)),
    brake_wanted: fitted.includes("all") ? null : brakeWanted(cases[0], speed_mps, sight_m, rails),
    parking: parkingWith(ground, worseRail),
    remarks: remarksOf(plan, cases),
  });
}

/** The step that `brakes` takes of this plan unless told, s. */
export const brakesStep_s = (plan: Plan): number => usualStep_s(plan, COARSE_s);

/** With its distance on the brake alone, where it counts on the motor's drag besides. */
function worstOf({ set, hardest, ready }: Case): WorstStop[] {
  const [worst] = hardest;
  if (!worst) return [];
  const { place, row } = worst;
  if (set === "drag" || !countsOnDrag(set, place.way.train)) return [row];
  const { distance_m } = stopFrom(withNoDrag(ready(place)), place.along_m, row.speed_mps);
  return [{ ...row, distance_without_drag_m: distance_m }];
}

const beyondSight = ({ set, rail, hardest }: Case, sight_m: number): BeyondSight => ({
  brakes: set,
  rail: rail.rail,
  places: hardest
    .filter(({ row }) => row.distance_m === null || row.distance_m > sight_m)
    .map(({ row: { chainage_m, direction, distance_m } }) => ({ chainage_m, direction, distance_m })),
});

const greatestSpeed = (each: Case, sight_m: number): GreatestSpeed => ({
  brakes: each.set,
  rail: each.rail.rail,
  speed_mps: each.hardest.length > 0 ? greatestSpeed_mps(each, sight_m) : null,
});

function remarksOf({ train }: Plan, cases: readonly Case[]): BrakesRemark[] {
  const remarks: BrakesRemark[] = [];
  if (cases.some(({ batteryFull }) => batteryFull)) remarks.push("battery_full");
  if (train.brakes.some(({ service, by }) => service && by === "guard")) remarks.push("guard_acts_later");
  if (cases.some(({ hardest, rows }) => hardest.length < rows.length)) remarks.push("ends_of_the_line_left_out");
  return remarks;
}
