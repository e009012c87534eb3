import { assume, InputError, type Notes, newNotes, shown } from "../errors.js";
import { type LocoDefinition, locoKeys, type PlanDefinition, planKeys, planOneOf } from "../parts/files.keys.js";
import { createStops, type Stop } from "../parts/stops.js";
import type { TrackColumns } from "../parts/track.columns.js";
import { createTrack, type Leaning, type Track } from "../parts/track.js";
import { lookForUnusual } from "../units/usual.js";
import { lookAtGiven } from "./given.js";
import { lookAtColumns, lookAtOwn } from "./given.own.js";
import type { Own } from "./own.js";
import type { Rolling } from "./rolling.js";
import { lookForDoubt } from "./surveyed.js";
import { createTrain, type Train } from "./train.js";
import { refuseImpossible } from "./walls.js";
import { lookForAbsurd } from "./warnings.absurd.js";
import { lookForSlowHeat, lookForTrouble } from "./warnings.js";
import { lookForStiff } from "./warnings.rolling.js";

/** A plan made ready to run: train, line and what the driver is to do. */
export interface Plan {
  readonly name: string;
  readonly train: Train;
  readonly track: Track;
  readonly atEnds: "propel" | "run-round" | "turn";
  readonly wind_mps: number;
  /** How judgements count the doubt of the gradients; not at all where absent. */
  readonly leaning?: Leaning;
  readonly air_degC: number;
  /** Rail in words: dry, damp, wet, greasy, or the grip given. */
  readonly rail: string;
  readonly charge: number;
  /** Drive to this speed, or NaN where the lever is held. */
  readonly speed_mps: number;
  /** Hold the lever here, or NaN where a speed is driven to. */
  readonly lever: number;
  readonly acceleration_mps2: number;
  readonly serviceBraking_mps2: number;
  /** Before the driver acts, s. */
  readonly reaction_s: number;
  /** Laps to run; Infinity where a duration is given. */
  readonly laps: number;
  readonly duration_s: number;
  readonly passengers: number;
  readonly stops: readonly Stop[];
  /** The train with each number of passengers that a stop leaves aboard, the plan's own included. */
  readonly trains: ReadonlyMap<number, Train>;
  readonly notes: Notes;
}

export const PLAN = { keys: planKeys, oneOf: planOneOf };
const LOCO = { keys: locoKeys };
/** Of a loco whose motor stands in no file: no source of figures is wanted. */
const LOCO_WITHOUT_MOTOR = { keys: { ...locoKeys, motor: { ...locoKeys.motor, oneOf: [] } } };

/**
 * Makes a plan ready to run.
 * @param plan one working of one train; its fields, as the loco's, are in SI and wear their units
 * @param columns the line: a value for each post
 * @param own what stands in no file: the rows of the curve or the magnetisation points where the motor has them, and
 * figures and laws of the user's own
 * @throws InputError with every problem found, each with its path: fields first, and then train and track made of them
 */
export function createPlan(plan: PlanDefinition, loco: LocoDefinition, columns: TrackColumns, own: Own = {}): Plan {
  mustBeRight(plan, loco, columns, own);
  return madePlan(plan, loco, columns, own);
}

/**
 * Looks at definitions field by field.
 * @throws InputError with all that is wrong with them
 */
export function mustBeRight(plan: unknown, loco: unknown, columns: unknown, own: Own): void {
  const notes = newNotes();
  lookAtGiven(notes, "plan", PLAN, plan);
  lookAtGiven(notes, "loco", own?.motor ? LOCO_WITHOUT_MOTOR : LOCO, loco);
  lookAtColumns(notes, columns);
  lookAtOwn(notes, own);
  if (notes.problems.length > 0) throw new InputError(notes.problems);
}

/** The same of definitions that have been looked at, or were made by the program itself. */
export function madePlan(plan: PlanDefinition, loco: LocoDefinition, columns: TrackColumns, own: Own = {}): Plan {
  const notes = newNotes(own);
  const usual = planKeys.track.keys;
  const { air_degC, track } = groundOf(plan, columns, notes);
  const train = createTrain(loco, plan, air_degC, notes, own);
  const stops = createStops(plan, columns, notes);
  mustFit(train, track, notes);
  const aboard = plan.passengers ?? planKeys.passengers.default.value;
  const ready: Plan = {
    name: plan.name ?? loco.name,
    train,
    track,
    atEnds: atEndsOf(plan, track, notes),
    wind_mps: assume(notes, "plan.track.wind", plan.track.wind_mps, usual.wind.default),
    air_degC,
    rail:
      plan.track.rail ??
      (plan.track.adhesion === undefined ? usual.rail.default.value : `grip ${shown(plan.track.adhesion)}`),
    charge: assume(notes, "plan.charge", plan.charge, planKeys.charge.default),
    speed_mps: plan.speed_mps ?? Number.NaN,
    lever: plan.lever ?? Number.NaN,
    acceleration_mps2: assume(notes, "plan.acceleration", plan.acceleration_mps2, planKeys.acceleration.default),
    serviceBraking_mps2: assume(
      notes,
      "plan.service_braking",
      plan.service_braking_mps2,
      planKeys.service_braking.default,
    ),
    reaction_s: assume(notes, "plan.reaction_time", plan.reaction_time_s, planKeys.reaction_time.default),
    laps:
      plan.duration_s === undefined
        ? assume(notes, "plan.laps", plan.laps, planKeys.laps.default)
        : Number.POSITIVE_INFINITY,
    duration_s: plan.duration_s ?? Number.POSITIVE_INFINITY,
    passengers: aboard,
    stops,
    trains: new Map([
      ...stops.flatMap(({ passengers }) =>
        passengers === undefined
          ? []
          : [[passengers, createTrain(loco, { ...plan, passengers }, air_degC, newNotes(own), own)] as const],
      ),
      [aboard, train],
    ]),
    notes,
  };
  refuseImpossible(train, notes);
  lookForTrouble(train, notes);
  lookForStiff(loco, plan, notes);
  lookForDoubt(train, track, notes);
  lookForAbsurd(train, columns, loco, notes);
  if (notes.problems.length === 0) lookForSlowHeat(ready, loco.motor.heat, notes);
  lookForUnusual(notes, "plan", planKeys, plan);
  lookForUnusual(notes, "loco", locoKeys, loco);
  if (notes.problems.length > 0) throw new InputError(notes.problems);
  return ready;
}

/** Refuses a train that its line has no room for. */
export function mustFit(train: Rolling, { kind, length_m }: Track, notes: Notes): void {
  if (train.length_m < length_m) return;
  const found = `the train is ${shown(train.length_m, "m")} long and the ${kind === "circuit" ? "circuit" : "line"} ${shown(length_m, "m")}`;
  notes.problems.push({ path: "plan.track.profile", message: `${found}; it must be shorter` });
}

/** The air and the line that a plan is run on. */
export function groundOf(
  plan: PlanDefinition,
  columns: TrackColumns,
  notes: Notes,
): { air_degC: number; track: Track } {
  const usual = planKeys.track.keys;
  const air_degC = assume(notes, "plan.air_temperature", plan.air_temperature_degC, planKeys.air_temperature.default);
  const kind = assume(notes, "plan.track.kind", plan.track.kind, usual.kind.default);
  const track = createTrack(
    columns,
    kind,
    plan.track.spread_misclosure ?? usual.spread_misclosure.default.value,
    notes,
  );
  return { air_degC, track };
}

/** What it does at the ends of a line that has any. */
export const atEndsOf = ({ track: { at_ends } }: PlanDefinition, { kind }: Track, notes: Notes): Plan["atEnds"] => {
  const { default: usual } = planKeys.track.keys.at_ends;
  return kind === "circuit" ? usual.value : assume(notes, "plan.track.at_ends", at_ends, usual);
};
