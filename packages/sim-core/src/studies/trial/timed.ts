import { newNotes } from "../../errors.js";
import { createTrack, type Track } from "../../parts/track.js";
import type { Plan } from "../../plan.js";
import { run } from "../../run.js";
import * as at from "../../state.js";
import type { BrakeSet } from "../brakes.sets.js";
import { stopFrom, toStop } from "../brakes.stop.js";
import type { Machine, Outing } from "./machine.js";

/** Laps after which the machine is looked at again. */
export const LAPS = 10;
/** Long enough for anything to come to rest on, m. */
const LEVEL_m = 5000;

/** The stretch that the club calls level, as it lies. */
function levelStretch(sine: number): Track {
  const columns = {
    distance_m: [0, LEVEL_m],
    height_m: [0, sine * LEVEL_m],
    curvature_radpm: [0, 0],
    limit_mps: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    place: ["", ""],
  };
  return createTrack(columns, "end-to-end", false, newNotes());
}

/**
 * From a speed to rest on the level with one set of brakes put on at the mark, by the same simulation as `brakes`; null
 * where it does not come to rest, m.
 */
export function stop_m(m: Machine, { train: plan }: Outing, set: BrakeSet, speed_mps: number, step_s: number) {
  if (m.blocked || !(speed_mps > 0)) return null;
  const { train } = m;
  const way = { train, track: levelStretch(m.level), wind_mps: 0, back: false };
  const atOnce: Plan = { ...plan, train, speed_mps, lever: Number.NaN, reaction_s: 0 };
  const rail = { rail: plan.rail, adhesion: train.adhesion };
  return stopFrom(toStop(atOnce, way, set, rail, step_s), train.length_m, speed_mps).distance_m;
}

/** The machine after its laps. */
export interface AfterLaps {
  charge: number;
  winding_degC: number;
  case_degC: number;
}

/** Laps of the plan with its driver alone; null where they are not finished. */
export function afterLaps(m: Machine, { train: plan }: Outing, step_s: number): AfterLaps | null {
  if (m.blocked || m.open || m.cutsOut) return null;
  const trains = new Map([[0, m.train]]);
  const working: Plan = { ...plan, train: m.train, trains, charge: m.charge, laps: LAPS, duration_s: Infinity };
  const w = run(working, { step_s });
  if (w.outcome !== "completed") return null;
  return {
    charge: m.charge - w.y[at.DRAWN_CHARGE] / m.train.battery.label_C,
    winding_degC: w.y[at.WINDING],
    case_degC: w.y[at.CASE],
  };
}
