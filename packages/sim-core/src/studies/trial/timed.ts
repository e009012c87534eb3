import { newNotes } from "../../errors.js";
import { createTrack, type Track } from "../../parts/track.js";
import { run } from "../../run.js";
import * as at from "../../state.js";
import type { Plan } from "../../train/plan.js";
import type { Working } from "../../working.js";
import { brakesStep_s } from "../brakes/brakes.js";
import type { BrakeSet } from "../brakes/sets.js";
import { stopFrom, toStop } from "../brakes/stop.js";
import type { Machine, Outing, StepName } from "./machine.js";
import type { Setting } from "./setting.js";

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
  const way = { train, track: levelStretch(m.level), wind_mps: m.wind_mps, back: false };
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
export function afterLaps(m: Machine, outing: Outing, step_s: number): AfterLaps | null {
  const w = lapsOf(m, outing, LAPS, step_s);
  if (!w) return null;
  return {
    charge: m.charge - w.y[at.DRAWN_CHARGE] / m.train.battery.label_C,
    winding_degC: w.y[at.WINDING],
    case_degC: w.y[at.CASE],
  };
}

/** What one lap takes: of the charge, and of the motor, whose heat goes by the mean square of its current. */
export interface LapTaken {
  used: number;
  square_A2: number;
}

export function oneLap(m: Machine, outing: Outing, step_s: number): LapTaken | null {
  const w = lapsOf(m, outing, 1, step_s);
  if (!w) return null;
  const used = w.y[at.DRAWN_CHARGE] / m.train.battery.label_C;
  return { used, square_A2: w.y[at.MOTOR_SQUARE] / w.time_s };
}

/** The laps of a sound machine and one of them: what a machine with something wrong does after its laps is in proportion. */
export interface SoundLaps {
  readonly after: AfterLaps;
  readonly one: LapTaken;
}

/** Of the sound machine in these states; nothing where no reading is taken after the laps, or they are not finished. */
export function soundLaps(
  { m, after }: { m: Machine; after: () => AfterLaps | null },
  { setting: { outing }, readings }: { setting: Setting; readings: readonly { readonly step: StepName }[] },
): SoundLaps | undefined {
  if (!readings.some(({ step }) => step === "after_laps")) return undefined;
  const [ten, one] = [after(), oneLap(m, outing, brakesStep_s(outing.train))];
  return ten && one ? { after: ten, one } : undefined;
}

/**
 * After the laps with something wrong, from a single one of them: the charge used and the warmth gained are a sound
 * machine's times the ratio of what one lap takes. Near enough to tell causes apart, and ten times as quick.
 */
export function afterLapsLike(
  { after, one }: SoundLaps,
  m: Machine,
  { machine: sound, outing }: Setting,
): AfterLaps | null {
  const taken = oneLap(m, outing, brakesStep_s(outing.train));
  if (!taken) return null;
  const heat = taken.square_A2 / one.square_A2;
  const charge = m.charge - (sound.charge - after.charge) * (taken.used / one.used);
  if (charge <= 0) return null;
  return {
    charge,
    winding_degC: m.air_degC + (after.winding_degC - m.air_degC) * heat,
    case_degC: m.air_degC + (after.case_degC - m.air_degC) * heat,
  };
}

function lapsOf(m: Machine, { train: plan }: Outing, laps: number, step_s: number): Working | undefined {
  if (m.blocked || m.open || m.cutsOut || m.leftAt !== undefined) return undefined;
  const trains = new Map([[0, m.train]]);
  const working: Plan = {
    ...plan,
    train: m.train,
    trains,
    charge: m.charge,
    wind_mps: m.wind_mps,
    laps,
    duration_s: Infinity,
  };
  const w = run(working, { step_s });
  return w.outcome === "completed" ? w : undefined;
}
