import { InputError, RunError } from "../../errors.js";
import type { EndedBy } from "../../event.js";
import type { Observer } from "../../loop/stepper.js";
import { HOUR_s } from "../../parts/battery.data.js";
import type { Draw } from "../../parts/battery.size.js";
import { controllerKeys, wiringKeys } from "../../parts/drive.keys.js";
import type { LocoDefinition } from "../../parts/files.keys.js";
import { cable_ohm } from "../../parts/wiring.js";
import { run } from "../../run.js";
import * as at from "../../state.js";
import { madePlan, type Plan } from "../../train/plan.js";
import type { Working } from "../../working.js";
import type { Gearing, MotorFor } from "./drive.js";
import type { Sizing } from "./input.js";
import { type CurrentsRow, type Loads, supplyAt } from "./supply.js";

/** What ended the trial too soon: an event on the line, or that there was nothing to run or to finish. */
export type NotRun = EndedBy | "cannot_be_built" | "failed";

/** What the day draws, and whether it was run or only worked out. */
export interface DayDraw {
  /** Null where the loco built to the figures ran; otherwise what ended that too soon. */
  readonly notRun: NotRun | null;
  /** At a voltage: with fewer volts the same cables and the same controller take more. */
  readonly at: (voltage_V: number) => Draw;
  /** The plan with the loco built to the figures; undefined where none can be built. */
  readonly built: Plan | undefined;
}

/** Volts that it is tried at. */
const VOLTS = 24;
const BATTERY_V = 12;
/** Long enough for the motor to be warm. */
const TRIED_s = 3600;
/** A battery that hardly notices: as is usual in the middle of the day, emptied in so long. */
const CHARGE = 0.75;
const EMPTIED_h = 20;
/** A peak must last as long as a cut-out waits to make it act, s. */
const PEAK_s = 2;

/**
 * The power that the day draws: of the loco built to the figures of this sizing and run here, stops, limits and starts
 * included, its last whole lap in an hour. Where it does not run that long, of the steady lap.
 */
export function dayDraw(sizing: Sizing, gearing: Gearing, motor: MotorFor, loads: Loads): DayDraw {
  const { duration_s, files } = sizing;
  const steady = {
    time_s: duration_s,
    mean_W: loads.mean_W + loads.standing_W,
    unevenness: loads.mean_W > 0 ? (loads.rms_W / loads.mean_W) ** 2 : 1,
    peak_W: loads.peak_W + loads.standing_W,
  };
  let plan: Plan | undefined;
  const notRun = (why: NotRun) => ({ notRun: why, at: () => steady, built: plan });
  const { laps: _, ...asked } = files.plan;
  const { observer, marks, peak_W } = watch();
  try {
    const tried = { ...asked, charge: CHARGE, duration_s: Math.min(duration_s, TRIED_s) };
    plan = madePlan(tried, built(sizing, gearing, motor, loads), files.columns);
    const w = run(plan, { observers: [observer] });
    if (w.endedBy !== "duration") return notRun(w.endedBy ?? "failed");
    const [from, to] =
      marks.length > 0 ? [marks[marks.length - 2] ?? START, marks[marks.length - 1]] : [START, markOf(w)];
    const lap = between(from, to);
    const fixed_W = (voltage_V: number) => fixedLoss_W(supplyAt(voltage_V, loads), lap, sizing.air_degC);
    const at = (voltage_V: number) => {
      const mean_W = lap.mean_W + fixed_W(voltage_V) - fixed_W(VOLTS);
      return { time_s: duration_s, mean_W, unevenness: lap.unevenness, peak_W: peak_W() };
    };
    return { notRun: null, at, built: plan };
  } catch (error) {
    if (error instanceof InputError) return notRun("cannot_be_built");
    if (error instanceof RunError) return notRun("failed");
    throw error;
  }
}

/** The loco file with the drive that this sizing asks for. */
function built(sizing: Sizing, gearing: Gearing, motor: MotorFor, loads: Loads): LocoDefinition {
  const { loco } = sizing.files;
  const row = supplyAt(VOLTS, loads);
  const capacity_C = (EMPTIED_h * HOUR_s * (loads.mean_W + loads.standing_W)) / VOLTS;
  return {
    ...loco,
    motor: {
      nameplate: {
        voltage_V: VOLTS,
        current_A: row.motor_continuous_current_A,
        speed_radps: motor.continuous_W / motor.continuous_Nm,
        power_W: motor.continuous_W,
      },
    },
    gears: loco.gears ?? [{ ratio: gearing.ratio, efficiency: gearing.efficiency, driven_inertia_kgm2: 0 }],
    controller: { motor_current_limit_A: row.controller_current_A },
    battery: {
      chemistry: "lead-acid",
      in_series: VOLTS / BATTERY_V,
      each: { voltage_V: BATTERY_V, capacity: [{ capacity_C }] },
    },
    wiring: {
      battery_cable: areaOf(row.battery_cable_mm2),
      motor_cable: areaOf(row.motor_cable_mm2),
      accessories_W: sizing.accessories_W,
    },
  };
}

/** Where no usual cable is thick enough it is left out. */
const areaOf = (area_mm2: number | null) => (area_mm2 === null ? { length_m: 0 } : { area_mm2 });

/** What is lost in resistances that stay as they are whatever the volts: both cables, and the controller's switch. */
function fixedLoss_W(row: CurrentsRow, { motorSquare_A2, batterySquare_A2 }: Drawn, air_degC: number): number {
  const cable = (length_m: number, area_mm2: number | null) =>
    area_mm2 === null ? 0 : cable_ohm(length_m, area_mm2, air_degC);
  const { battery_m, motor_m } = wiringKeys.battery_cable.keys.length.default.value;
  const motor_ohm = controllerKeys.on_resistance.default.value + cable(motor_m, row.motor_cable_mm2);
  const battery_ohm = cable(battery_m, row.battery_cable_mm2);
  return (VOLTS / row.voltage_V) ** 2 * (motor_ohm * motorSquare_A2 + battery_ohm * batterySquare_A2);
}

/** What has been drawn by a time. */
interface Mark {
  readonly time_s: number;
  readonly energy_J: number;
  readonly charge_C: number;
  readonly square_A2s: number;
  readonly motorSquare_A2s: number;
}

const START: Mark = { time_s: 0, energy_J: 0, charge_C: 0, square_A2s: 0, motorSquare_A2s: 0 };

const markOf = ({ time_s, y }: Working): Mark => ({
  time_s,
  energy_J: y[at.DRAWN] - y[at.RETURNED],
  charge_C: y[at.DRAWN_CHARGE],
  square_A2s: y[at.BATTERY_SQUARE],
  motorSquare_A2s: y[at.MOTOR_SQUARE],
});

/** What was drawn in the mean between two marks. */
interface Drawn {
  readonly mean_W: number;
  readonly unevenness: number;
  readonly batterySquare_A2: number;
  readonly motorSquare_A2: number;
}

function between(from: Mark, to: Mark): Drawn {
  const time_s = to.time_s - from.time_s;
  const mean_A = (to.charge_C - from.charge_C) / time_s;
  const batterySquare_A2 = (to.square_A2s - from.square_A2s) / time_s;
  return {
    mean_W: (to.energy_J - from.energy_J) / time_s,
    unevenness: batterySquare_A2 / mean_A ** 2,
    batterySquare_A2,
    motorSquare_A2: (to.motorSquare_A2s - from.motorSquare_A2s) / time_s,
  };
}

/** Looks on, marks every lap, and keeps the greatest mean power of any two seconds. */
function watch(): { observer: Observer; marks: Mark[]; peak_W: () => number } {
  const marks: Mark[] = [];
  let since = START;
  let most_W = 0;
  const observer: Observer = {
    step(w) {
      if (w.time_s - since.time_s < PEAK_s) return;
      const now = markOf(w);
      most_W = Math.max(most_W, (now.energy_J - since.energy_J) / (now.time_s - since.time_s));
      since = now;
    },
    event(w) {
      if (w.lapsDone > marks.length) marks.push(markOf(w));
    },
  };
  return { observer, marks, peak_W: () => most_W };
}
