import { gradientsFelt } from "../../line.js";
import type { LocoDefinition, PlanDefinition } from "../../parts/files.keys.js";
import type { MotorTables } from "../../parts/motor.tables.js";
import type { TrackColumns } from "../../parts/track.columns.js";
import { createPlan, type Plan } from "../../plan.js";
import type { Train } from "../../train.js";

/** A first outing: the loco by itself with nobody on it, and the plan's train with its driver and nobody else. */
export interface Outing {
  readonly light: Plan;
  readonly train: Plan;
}

/** The machine on trial, as it should be or with something wrong: what every reading is worked out from. */
export interface Machine {
  readonly light: Train;
  readonly train: Train;
  /** Share of the charge left, counted by the label. */
  readonly charge: number;
  readonly air_degC: number;
  /** Rise over distance of the place called level, and of the steepest place, curves counted in; uphill +. */
  readonly level: number;
  readonly steep: number;
  /** How far the lever stands from where it is read to stand, as a share of its way. */
  readonly leverOff: { readonly stands: number; readonly held: number; readonly run: number };
  /** Is something under a wheel, or a brake hard on, so that it cannot move along? */
  readonly blocked: boolean;
  /** And so that the driven wheels cannot turn either? */
  readonly jammed: boolean;
  /** Where a circuit is open. */
  readonly open: "battery" | "motor" | undefined;
  readonly forwards: boolean;
  /** Where the controller's cut-out acts with the battery sound: the drive has then shut off when the meters are read. */
  readonly cutsOut: "running" | "restart" | undefined;
  /** The most that the sprockets pass on, at the driven rims, N. */
  readonly sprockets_N: number;
  /** Are the sprockets those of the files? */
  readonly teeth: boolean;
  /** Slack of the chains, as a share of what it should be. */
  readonly slack: number;
  /** One battery of the string, by how much it is short of volts; the whole battery's are short by as much. */
  readonly weak: { readonly battery: number; readonly short_V: number } | undefined;
}

/**
 * The two trains of a first outing.
 * @throws InputError as `createPlan` does
 */
export function outingOf(
  plan: PlanDefinition,
  loco: LocoDefinition,
  columns: TrackColumns,
  tables: MotorTables = {},
): Outing {
  const empty = { ...plan, passengers: 0, stops: (plan.stops ?? []).map(({ passengers: _, ...stop }) => stop) };
  const alone = { ...empty, cars: [], stops: [], driver: { mass_kg: 0, rides: "loco" } };
  return { light: createPlan(alone, loco, columns, tables), train: createPlan(empty, loco, columns, tables) };
}

/** The machine as its files have it. */
export function machineOf({ light, train: { train, track, charge, air_degC } }: Outing): Machine {
  return {
    light: light.train,
    train,
    charge,
    air_degC,
    level: 0,
    steep: gradientsFelt(train, track).compensated.share,
    leverOff: { stands: 0, held: 0, run: 0 },
    blocked: false,
    jammed: false,
    open: undefined,
    forwards: true,
    cutsOut: undefined,
    sprockets_N: Number.POSITIVE_INFINITY,
    teeth: true,
    slack: 1,
    weak: undefined,
  };
}

/** Both trains changed alike: they share one loco. */
export const both = (m: Machine, change: (train: Train) => Train): Machine => ({
  ...m,
  light: change(m.light),
  train: change(m.train),
});
