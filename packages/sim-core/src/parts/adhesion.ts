import { assume, type Notes } from "../errors.js";
import { type PlanDefinition, planKeys, type RollingLoco } from "./files.keys.js";
import { wheelsKeys } from "./vehicle.keys.js";

/** Grip of a driven wheel on the rail: the greatest share of its load it can pass on. */
export interface Adhesion {
  /** Before it slips. */
  readonly static: number;
  /** Once it slips. */
  readonly sliding: number;
}

/**
 * Steel tyre on rail: dry 0.25, moist 0.20, wet 0.05 to 0.15 (electricalexams.co, a table of Indian traction texts; dry
 * and wet also J. Koffman, 1948, wet = 0.6 × dry). Greasy 0.08: common practice, no source.
 */
export const RAIL = { dry: 0.25, damp: 0.2, wet: 0.15, greasy: 0.08 } as const;

/**
 * Sliding grip as a share of static. Dry steel on steel slides at half its static friction, oiled at 0.6 (OpenStax
 * University Physics 1, table 6.1: 0.6/0.3, 0.05/0.03); tests spread from 0.5 to 0.8.
 */
export const SLIDING_SHARE = 0.6;

/**
 * Weight that pulling moves from the leading axle to the trailing one: the drawbar at its height, gravity and inertia at
 * the height of the centre of gravity, over the wheelbase (statics of a two-axle vehicle). Axles chained together share
 * one grip and lose nothing; `end` is then 0.
 */
export interface Transfer {
  /** Driven axles at the rear gain, +1; at the front they lose, -1; all driven, or heights not known: 0. */
  readonly end: -1 | 0 | 1;
  readonly coupling_m: number;
  readonly gravity_m: number;
  readonly base_m: number;
}

/** Weight moved to the rear axle by a drawbar pull and by the force that gravity and inertia make at the loco, N. */
export const transferred_N = (t: Transfer, drawbar_N: number, body_N: number): number =>
  (drawbar_N * t.coupling_m + body_N * t.gravity_m) / t.base_m;

/** Grip of the rail that the plan names. */
export function createAdhesion(plan: PlanDefinition, notes: Notes): Adhesion {
  const usual = planKeys.track.keys.rail.default;
  const named = () => {
    const middle = RAIL[assume(notes, "plan.track.rail", plan.track.rail, usual)];
    return notes.drawn?.("plan.track.rail", middle) ?? middle;
  };
  const grip = plan.track.adhesion ?? named();
  notes.assumed.push({
    key: "sliding grip",
    value: `${SLIDING_SHARE} of static`,
    source: "steel on steel 0.5 dry, 0.6 oiled (OpenStax University Physics 1, table 6.1)",
  });
  return { static: grip, sliding: SLIDING_SHARE * grip };
}

/** Weight transfer, where the loco file gives both heights. */
export function createTransfer(loco: RollingLoco, notes: Notes): Transfer {
  const { coupling_height_m, gravity_height_m, wheelbase_m, bogie_centres_m, driven_axles, driven_end } = loco.wheels;
  const allDriven = driven_axles >= (loco.wheels.axles ?? wheelsKeys.axles.default.value);
  const none: Transfer = { end: 0, coupling_m: 0, gravity_m: 0, base_m: 1 };
  if (coupling_height_m === undefined && gravity_height_m === undefined) {
    if (!allDriven) {
      const source =
        "coupling_height and gravity_height are not given: a front driven axle grips less than this, a rear one more";
      notes.assumed.push({ key: "weight transfer", value: "none", source });
    }
    return none;
  }
  if (coupling_height_m === undefined || gravity_height_m === undefined) {
    notes.problems.push({
      path: "loco.wheels",
      message: "coupling_height and gravity_height stand together: give both or neither",
    });
    return none;
  }
  if (allDriven) return none;
  const end = assume(notes, "loco.wheels.driven_end", driven_end, wheelsKeys.driven_end.default) === "rear" ? 1 : -1;
  const base_m = bogie_centres_m ?? wheelbase_m ?? wheelsKeys.wheelbase.default.value * loco.gauge_m;
  return { end, coupling_m: coupling_height_m, gravity_m: gravity_height_m, base_m };
}
