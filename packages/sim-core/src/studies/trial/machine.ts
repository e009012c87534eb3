import { G_mps2 } from "../../parts/constants.js";
import type { LocoDefinition, PlanDefinition } from "../../parts/files.keys.js";
import type { TrackColumns } from "../../parts/track.columns.js";
import { curvesAt_N, gradientsFelt } from "../../train/line.js";
import type { Own } from "../../train/own.js";
import { madePlan, mustBeRight, type Plan } from "../../train/plan.js";
import type { Train } from "../../train/train.js";

/** A first outing: the loco by itself with nobody on it, and the plan's train with its driver and nobody else. */
export interface Outing {
  readonly light: Plan;
  readonly train: Plan;
}

/** The steps of a careful outing, in their order. */
export const STEPS = [
  "looks",
  "before_power",
  "battery_at_rest",
  "on_stands",
  "held",
  "rolling",
  "first_run",
  "restart",
  "stops",
  "parked",
  "after_laps",
] as const;
export type StepName = (typeof STEPS)[number];

/**
 * Where a circuit can be open: before the controller; in the small wires that tell the controller to open; between
 * controller and motor; in the motor, at its brushes.
 */
export type Open = "battery" | "control" | "motor" | "brushes";

/** What is looked at before anything is measured, in the order in which power flows. */
export const LOOKS = [
  "look_chocks",
  "look_brake",
  "look_isolator",
  "look_breaker",
  "look_dead_man",
  "look_reverser",
  "look_lever",
  "look_clear",
] as const;
export type Look = (typeof LOOKS)[number];

/** The machine on trial, as it should be or with something wrong: what every reading is worked out from. */
export interface Machine {
  readonly light: Train;
  readonly train: Train;
  /** Share of the charge left, counted by the label. */
  readonly charge: number;
  /** How far off that may be, as a standard deviation. */
  readonly chargeOff_sd: number;
  readonly air_degC: number;
  /** Rise over distance of the place called level, and of the steepest place, curves counted in; uphill +. */
  readonly level: number;
  readonly steep: number;
  /** What curves have of both: a level laid along the rail does not show it. */
  readonly curving: { readonly level: number; readonly steep: number };
  /** How far the lever stands from where it is read to stand, as a share of its way. */
  readonly leverOff: { readonly stands: number; readonly held: number; readonly run: number };
  /** Wind against the train, m/s. */
  readonly wind_mps: number;
  /** Is something under a wheel, so that the train cannot move along? Its wheels turn if it is lifted off. */
  readonly blocked: boolean;
  /** Where the lever is left by someone whose train does not move; where the sheet wants it if undefined. */
  readonly leftAt: number | undefined;
  /** Where a circuit is open. */
  readonly open: Open | undefined;
  /** What a chopper shows at its output with nothing on it: 0 the mean of its pulses, 1 the volts of its input. */
  readonly openShows: number;
  /** Which of the looks before any number shows what is wrong. */
  readonly amiss: Look | undefined;
  readonly forwards: boolean;
  /** Where the controller's cut-out acts with the battery sound: the drive has then shut off when the meters are read. */
  readonly cutsOut: "at_rest" | "running" | "restart" | undefined;
  /** The most that the sprockets pass on, at the driven rims, N. */
  readonly sprockets_N: number;
  /** Are the sprockets those of the files? */
  readonly teeth: boolean;
  /** Slack of the chains, as a share of what it should be. */
  readonly slack: number;
  /** Batteries in the string. */
  readonly inSeries: number;
  /** One battery of the string, by how much it is short of volts; the whole battery's are short by as much. */
  readonly weak: { readonly battery: number; readonly short_V: number } | undefined;
}

/**
 * The two trains of a first outing.
 * @throws InputError as `createPlan` does
 */
export function outingOf(plan: PlanDefinition, loco: LocoDefinition, columns: TrackColumns, own: Own = {}): Outing {
  mustBeRight(plan, loco, columns, own);
  return madeOuting(plan, loco, columns, own);
}

/** The same of definitions that have been looked at. */
export function madeOuting(plan: PlanDefinition, loco: LocoDefinition, columns: TrackColumns, own: Own = {}): Outing {
  const empty = { ...plan, passengers: 0, stops: (plan.stops ?? []).map(({ passengers: _, ...stop }) => stop) };
  const alone = { ...empty, cars: [], stops: [], driver: { mass_kg: 0, rides: "loco" } };
  return { light: madePlan(alone, loco, columns, own), train: madePlan(empty, loco, columns, own) };
}

/** The machine as its files have it. */
export function machineOf(
  { light, train: { train, track, charge, air_degC, wind_mps } }: Outing,
  inSeries = 1,
): Machine {
  const steepest = gradientsFelt(train, track).compensated;
  return {
    light: light.train,
    train,
    charge,
    // Common practice, no source.
    chargeOff_sd: 0.03,
    air_degC,
    level: 0,
    steep: steepest.share,
    curving: { level: 0, steep: curvesAt_N(train, track, steepest.chainage_m) / (train.mass_kg * G_mps2) },
    leverOff: { stands: 0, held: 0, run: 0 },
    wind_mps,
    blocked: false,
    leftAt: undefined,
    open: undefined,
    openShows: 0.3,
    amiss: undefined,
    forwards: true,
    cutsOut: undefined,
    sprockets_N: Number.POSITIVE_INFINITY,
    teeth: true,
    slack: 1,
    inSeries,
    weak: undefined,
  };
}

/** Both trains changed alike: they share one loco. */
export const both = (m: Machine, change: (train: Train) => Train): Machine => ({
  ...m,
  light: change(m.light),
  train: change(m.train),
});
