import { grip_N } from "../../drive/pull.js";
import { batteryKeys } from "../../parts/battery.keys.js";
import { G_mps2 } from "../../parts/constants.js";
import type { LocoDefinition } from "../../parts/files.keys.js";
import { curvesAt_N, gravityAt_N } from "../../train/line.js";
import { brakesStep_s } from "../brakes/brakes.js";
import { usualStep_s } from "../once.js";
import { type LapOf, lapOf } from "./laps.js";
import { type Machine, machineOf, type Outing } from "./machine.js";
import { driveAt, running } from "./settled.js";
import { type StopOf, stopsOf } from "./stops.js";

/** What is fixed for a whole outing: where the lever stands in each test, and from which speeds it is stopped. */
export interface Setting {
  readonly outing: Outing;
  /** As it should be. */
  readonly machine: Machine;
  readonly told: Told;
  readonly levers: { readonly held: number; readonly walk: number; readonly run: number };
  readonly speeds: { readonly walk_mps: number; readonly line_mps: number };
  readonly inSeries: number;
  /** Volts of one cell, or of one battery where its cells are not known. */
  readonly cell_V: number;
  readonly step_s: number;
  /** Whole simulations, each run once for all that ask for the same. */
  readonly stopOf: StopOf;
  readonly lapOf: LapOf;
}

/** Walking pace, m/s; like the rest of these, common practice, no source. */
const WALK_mps = 1;
/** Where a lever can be set by eye. */
const NOTCH = 0.05;
/** In the held test the drive takes at most these shares of what the controller lets through and of what slips the wheels. */
const GENTLE = { current: 0.5, grip: 0.8 };

/** How it was on the day, as far as somebody says: where the lever stood, the wind against the train, and where it ran. */
export interface Told {
  readonly lever?: number;
  readonly wind_mps?: number;
  /** Chainage of the train's head, m. */
  readonly place_m?: number;
}

export function settingOf(outing: Outing, loco: LocoDefinition, told: Told = {}): Setting {
  const inSeries = loco.battery.in_series ?? batteryKeys.in_series.default.value;
  const machine = machineOf(outing, inSeries);
  const { train } = outing;
  const top = running(machine, machine.train, 0, 1);
  const asked_mps = Number.isNaN(train.speed_mps) ? top.speed_mps : train.speed_mps;
  const line_mps = Math.min(asked_mps, top.speed_mps);
  const run = told.lever ?? (Number.isNaN(train.lever) ? leverFor(machine, line_mps) : notch(train.lever));
  const cells = machine.train.battery.cells;
  return {
    outing,
    machine: onTheDay(machine, outing, told),
    told,
    levers: { held: gently(machine), walk: leverFor(machine, Math.min(WALK_mps, line_mps)), run },
    speeds: { walk_mps: Math.min(WALK_mps, line_mps), line_mps },
    inSeries,
    cell_V: machine.train.battery.nominal_V / (Number.isFinite(cells) ? cells : inSeries),
    step_s: usualStep_s(train),
    stopOf: stopsOf(outing),
    lapOf: lapOf(outing, brakesStep_s(train)),
  };
}

function onTheDay(m: Machine, { train: { track } }: Outing, { wind_mps, place_m }: Told): Machine {
  const wind = wind_mps === undefined ? m : { ...m, wind_mps };
  if (place_m === undefined) return wind;
  const weight_N = m.train.mass_kg * G_mps2;
  const curves = curvesAt_N(m.train, track, place_m) / weight_N;
  const level = gravityAt_N(m.train, track, place_m) / weight_N + curves;
  return { ...wind, level, curving: { ...m.curving, level: curves } };
}

const notch = (lever: number): number => Math.min(1, Math.max(NOTCH, Math.round(lever / NOTCH) * NOTCH));

/** The notch at which it first reaches a speed on the level. */
function leverFor(m: Machine, speed_mps: number): number {
  for (let i = 1; i * NOTCH < 1; i++) if (running(m, m.train, 0, i * NOTCH).speed_mps >= speed_mps) return i * NOTCH;
  return 1;
}

/** The highest half notch at which it pulls gently at a spring balance. */
function gently(m: Machine): number {
  const most_A = GENTLE.current * m.light.controller.motorLimit_A;
  const most_N = GENTLE.grip * grip_N(m.light, 0);
  let lever = NOTCH;
  for (let i = 3; i * (NOTCH / 2) <= 0.5; i++) {
    const held = driveAt(m, m.light, 0, i * (NOTCH / 2));
    if (held.motor_A > most_A || held.force_N > most_N) break;
    lever = i * (NOTCH / 2);
  }
  return lever;
}
