import { assume, InputError, type Notes, newNotes } from "../../errors.js";
import { wiringKeys } from "../../parts/drive.keys.js";
import {
  type LocoDefinition,
  locoKeys,
  type PlanDefinition,
  planKeys,
  type RollingLoco,
} from "../../parts/files.keys.js";
import { createGears, type Gears } from "../../parts/gears.js";
import type { TrackColumns } from "../../parts/track.columns.js";
import type { Track } from "../../parts/track.js";
import { lookAtGiven } from "../../train/given.js";
import { lookAtColumns } from "../../train/given.own.js";
import type { Own } from "../../train/own.js";
import { atEndsOf, groundOf, mustFit, PLAN } from "../../train/plan.js";
import { createRolling, drivenWheels_kgm2, type Rolling } from "../../train/rolling.js";
import { lookForDoubt } from "../../train/surveyed.js";
import { lookForStiff } from "../../train/warnings.rolling.js";
import { format } from "../../units/format.js";
import { lookForUnusual } from "../../units/usual.js";

/** A loco whose drive is still to be chosen. Gears, where they are given, are kept; so are accessories. */
export type SizeLoco = RollingLoco & Partial<LocoDefinition>;

/** A train, its line and what it is to do, with no drive yet. */
export interface Sizing {
  readonly train: Rolling;
  readonly track: Track;
  readonly atEnds: "propel" | "run-round" | "turn";
  readonly wind_mps: number;
  readonly air_degC: number;
  readonly speed_mps: number;
  readonly acceleration_mps2: number;
  readonly reaction_s: number;
  readonly duration_s: number;
  /** The loco alone, with nobody on it. */
  readonly loco_kg: number;
  readonly drivenWheels_kgm2: number;
  readonly gears: Gears | undefined;
  readonly accessories_W: number;
  /** What all of it was made of. */
  readonly files: { readonly plan: PlanDefinition; readonly loco: SizeLoco; readonly columns: TrackColumns };
  readonly notes: Notes;
}

/** Doubt that was typed, and how what is assumed is drawn. */
type Doubts = Pick<Own, "drawn" | "doubts">;

/** What is still to be chosen. */
const CHOSEN = ["motor", "controller", "battery"];
/** Hours of running where the plan has no duration. */
const AFTERNOON_s = 4 * 3600;

/**
 * Makes ready what `size` needs of the files; motor, controller and battery need not be there and are not looked at.
 * @throws InputError with every problem found
 */
export function createSizing(plan: PlanDefinition, loco: SizeLoco, columns: TrackColumns, own: Doubts = {}): Sizing {
  const notes = newNotes();
  lookAtGiven(notes, "plan", PLAN, plan);
  lookAtGiven(notes, "loco", { keys: locoKeys }, loco, { passed: CHOSEN, mayLack: [...CHOSEN, "gears"] });
  lookAtColumns(notes, columns);
  if (notes.problems.length > 0) throw new InputError(notes.problems);
  return madeSizing(plan, loco, columns, own);
}

/** The same of definitions that have been looked at. */
export function madeSizing(plan: PlanDefinition, loco: SizeLoco, columns: TrackColumns, own: Doubts = {}): Sizing {
  const notes = newNotes(own);
  const usual = planKeys.track.keys;
  const { air_degC, track } = groundOf(plan, columns, notes);
  const train = createRolling(loco, plan, notes);
  mustFit(train, track, notes);
  lookForStiff(loco, plan, notes);
  lookForDoubt(train, track, notes);
  if (plan.speed_mps === undefined) {
    notes.problems.push({ path: "plan.lever", message: "sizing needs the speed to run at: write speed in its place" });
  }
  if (plan.duration_s === undefined) {
    notes.assumed.push({
      key: "plan.duration",
      value: format(AFTERNOON_s, "time", "metric"),
      source: "an afternoon: common practice, no source",
    });
  }
  const sizing: Sizing = {
    train,
    track,
    atEnds: atEndsOf(plan, track, notes),
    wind_mps: assume(notes, "plan.track.wind", plan.track.wind_mps, usual.wind.default),
    air_degC,
    speed_mps: plan.speed_mps ?? Number.NaN,
    acceleration_mps2: assume(notes, "plan.acceleration", plan.acceleration_mps2, planKeys.acceleration.default),
    reaction_s: assume(notes, "plan.reaction_time", plan.reaction_time_s, planKeys.reaction_time.default),
    duration_s: plan.duration_s ?? AFTERNOON_s,
    loco_kg: loco.mass_kg,
    drivenWheels_kgm2: drivenWheels_kgm2(loco),
    gears: loco.gears && createGears(loco.gears, notes),
    accessories_W: assume(notes, "loco.wiring.accessories", loco.wiring?.accessories_W, wiringKeys.accessories.default),
    files: { plan, loco, columns },
    notes,
  };
  lookForUnusual(notes, "plan", planKeys, plan);
  lookForUnusual(notes, "loco", locoKeys, loco);
  if (notes.problems.length > 0) throw new InputError(notes.problems);
  return sizing;
}
