import { CHAINS } from "../../parts/chain.data.js";
import { span_m } from "../../parts/chain.js";
import { slackOf } from "../../parts/chain.load.js";
import type { Stage } from "../../parts/gears.js";
import { gravity_N } from "../../pull.js";
import { isFitted } from "../brakes.sets.js";
import { INSTRUMENT, type Instrument } from "./instruments.js";
import type { Setting } from "./setting.js";
import { driveDrag_N, rested_V, runDown_s, type Settled, startingCurrent_A } from "./settled.js";
import type { States } from "./states.js";

/** The steps of a careful outing, in their order. */
export const STEPS = [
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

/** The unit a value is in: SI, but people read turns of a wheel by the minute and warmth in °C. */
export type ReadingUnit = "V" | "A" | "N" | "m/s" | "m" | "mm" | "s" | "rpm" | "turns" | "°C" | "yes/no";

/** Something to read, and what it is worked out from. */
export interface Reading {
  /** As the sheet and the file of readings have it. */
  readonly reading: string;
  readonly step: StepName;
  /** What to read, in words. */
  readonly what: string;
  readonly unit: ReadingUnit;
  /** What it is read with; of a yes or no, one's own eyes. */
  readonly instrument: Instrument | undefined;
  /** By a whole simulation, and so slow to work out. */
  readonly timed: boolean;
  /** The value, or null where there is none to read; of a yes or no a margin, yes above 0. */
  readonly value: (states: States) => number | null;
}

const eyes = undefined;
const runs = (speed_mps: number) => speed_mps > 0;
const percent = (lever: number) => (lever >= 1 ? "full" : `${Math.round(100 * lever)} %`);

/** Everything to read on this loco's outing, in order. */
export function readingsOf(setting: Setting): Reading[] {
  const { volts, moving, drop, amps, pull, holding, yes, other, stopping } = makers;
  const { machine, levers, speeds, inSeries } = setting;
  const { train, light } = machine;
  const { held, walk, run } = { held: percent(levers.held), walk: percent(levers.walk), run: percent(levers.run) };
  const batteries = inSeries > 1 ? Array.from({ length: inSeries }, (_, i) => i + 1) : [];
  const toothed = train.gears.stages.some(({ teeth }) => teeth);
  const loose = light.motor.kind === "permanent-magnet";
  const rpm = (s: States, lever: number) => (60 * s.stands(lever).speed_mps) / (2 * Math.PI * s.m.light.radius_m);
  return [
    ...train.gears.stages.flatMap((stage, i) => {
      const slack_mm = slackOf_mm(stage);
      const what = `chain ${i + 1} from the motor: how far its run moves up and down in the middle, all the way`;
      return slack_mm === undefined
        ? []
        : [other(`chain_${i + 1}_slack`, "before_power", what, "mm", "slack", (s) => slack_mm * s.m.slack)];
    }),
    ...(toothed
      ? [
          yes("teeth", "before_power", "do the sprockets have the teeth that the files give them? Count them", (s) =>
            s.m.teeth ? CERTAIN : -CERTAIN,
          ),
        ]
      : []),
    other(
      "motor_turns",
      "before_power",
      "turns of the motor for one of a driven wheel, counted over ten by hand",
      "turns",
      "counted",
      (s) => s.m.light.gears.ratio,
    ),
    other(
      "wheel_diameter",
      "before_power",
      "driven wheel, across the tread",
      "mm",
      "rule",
      (s) => 2000 * s.m.light.radius_m,
    ),
    volts("rest_volts", "battery_at_rest", "whole battery, at its own terminals, everything off for an hour", (s) =>
      s.m.open === "battery" ? rested_V({ ...s.m, open: undefined }) : rested_V(s.m),
    ),
    ...batteries.map((k) =>
      volts(`battery_${k}_volts`, "battery_at_rest", `battery ${k} of ${inSeries} alone`, (s) => {
        const missing_V = s.m.weak?.short_V ?? 0;
        return ofOne_V(setting, s) - (s.m.weak?.battery === k ? missing_V : 0);
      }),
    ),
    yes("stands_forwards", "on_stands", "lever a little open: do the wheels turn forwards?", (s) =>
      s.m.open ? null : s.m.forwards ? CERTAIN : -CERTAIN,
    ),
    yes(
      "stands_dead_man",
      "on_stands",
      "dead-man's switch let go: does the motor stop taking current at once?",
      () => CERTAIN,
    ),
    ...(loose
      ? [
          other(
            "stands_rpm_quarter",
            "on_stands",
            "turns of a driven wheel a minute, lever 25 %",
            "rpm",
            "turns",
            (s) => rpm(s, 0.25),
          ),
          other("stands_rpm_half", "on_stands", "the same, lever 50 %", "rpm", "turns", (s) => rpm(s, 0.5)),
          other("stands_rpm_full", "on_stands", "the same, lever full", "rpm", "turns", (s) => rpm(s, 1)),
          amps("stands_amps", "on_stands", "lever full: amps in the battery's cable", (s) => s.stands(1).battery_A),
          other(
            "stands_run_down",
            "on_stands",
            "from full lever, shut: seconds until the wheels stand",
            "s",
            "watch",
            (s) => {
              const { speed_mps } = s.stands(1);
              return runs(speed_mps) ? runDown_s(s.m.light, speed_mps) : null;
            },
          ),
        ]
      : []),
    amps("held_motor_amps", "held", `lever ${held}: amps in the motor's cable`, (s) => s.held().motor_A),
    amps("held_battery_amps", "held", `lever ${held}: amps in the battery's cable`, (s) => s.held().battery_A),
    volts("held_battery_volts", "held", `lever ${held}: at the battery's terminals`, (s) => s.held().battery_V),
    volts(
      "held_controller_volts",
      "held",
      `lever ${held}: where the battery's cable enters the controller`,
      (s) => s.held().controller_V,
    ),
    volts("held_motor_volts", "held", `lever ${held}: at the motor's terminals`, (s) => s.held().motor_V),
    holding("held_pull", "held", `lever ${held}: pull at the spring balance`, (s) =>
      s.m.forwards ? Math.max(0, s.held().force_N - s.m.light.rolling_N) : 0,
    ),
    holding(
      "most_pull",
      "held",
      "lever opened slowly until full or the wheels are about to slip, a second or two: pull",
      (s) => (s.m.forwards ? Math.max(0, s.heldHardest().force_N - s.m.light.rolling_N) : 0),
    ),
    amps("most_motor_amps", "held", "and then: amps in the motor's cable", (s) => s.heldHardest().motor_A),
    drop(
      "most_battery_drop",
      "held",
      "and then: volts from the battery's post to the controller's, along one lead and back along the other",
      (s) => (s.m.open === "battery" ? null : s.heldHardest().battery_A * s.m.light.batteryCable_ohm),
    ),
    drop(
      "most_motor_drop",
      "held",
      "and then: volts from the controller's post to the motor's, along both leads",
      (s) =>
        s.m.open === "motor" ? null : s.heldHardest().motor_A * (s.m.light.motorPath_ohm - s.m.light.controller.on_ohm),
    ),
    yes("most_cuts_out", "held", "and then: does the controller shut itself off?", (s) => cutsOut(s, s.heldHardest())),
    pull(
      "roll_loco_start",
      "rolling",
      "loco alone, everything off: pull to start it",
      (s) => s.m.light.breakaway_N + driveDrag_N(s.m.light),
    ),
    pull(
      "roll_loco",
      "rolling",
      "loco alone: pull to keep it creeping, mean of both ways",
      (s) => s.m.light.rolling_N + driveDrag_N(s.m.light),
    ),
    other(
      "level_rise",
      "rolling",
      "rise of the rail in ten metres of the level stretch, forwards",
      "mm",
      "level",
      (s) => 1e4 * s.m.level,
    ),
    other(
      "steep_rise",
      "rolling",
      "rise in ten metres of the steepest place, uphill",
      "mm",
      "level",
      (s) => 1e4 * s.m.steep,
    ),
    pull(
      "roll_train",
      "rolling",
      "whole train, driver aboard, on the level stretch: pull to keep it creeping forwards",
      (s) => (s.m.blocked ? null : s.m.train.rolling_N + driveDrag_N(s.m.train) + gravity_N(s.m.train, s.m.level)),
    ),
    pull("roll_train_back", "rolling", "the same backwards", (s) =>
      s.m.blocked ? null : Math.max(0, s.m.train.rolling_N + driveDrag_N(s.m.train) - gravity_N(s.m.train, s.m.level)),
    ),
    pull(
      "roll_loco_steep",
      "rolling",
      "loco alone at the steepest place: pull to keep it creeping uphill",
      (s) => s.m.light.rolling_N + driveDrag_N(s.m.light) + gravity_N(s.m.light, s.m.steep),
    ),
    yes("run_forwards", "first_run", "does it set off forwards?", (s) =>
      runs(s.run().speed_mps) ? (s.m.forwards ? CERTAIN : -CERTAIN) : null,
    ),
    amps("start_amps", "first_run", "lever opened slowly: amps in the motor's cable as it just moves", (s) =>
      existing(startingCurrent_A(s.m, s.m.train, s.m.level)),
    ),
    other(
      "walk_speed",
      "first_run",
      `lever ${walk}: steady speed, 0 if it stands`,
      "m/s",
      "timed",
      (s) => s.walk().speed_mps,
    ),
    amps("walk_battery_amps", "first_run", `lever ${walk}: amps in the battery's cable`, (s) => s.walk().battery_A),
    other(
      "run_speed",
      "first_run",
      `lever ${run}: steady speed, 0 if it stands`,
      "m/s",
      "timed",
      (s) => s.run().speed_mps,
    ),
    amps(
      "run_motor_amps",
      "first_run",
      `lever ${run}: amps in the motor's cable, standing or running`,
      (s) => s.run().motor_A,
    ),
    amps("run_battery_amps", "first_run", `lever ${run}: amps in the battery's cable`, (s) => s.run().battery_A),
    moving("run_battery_volts", "first_run", `lever ${run}: at the battery's terminals`, (s) => s.run().battery_V),
    moving(
      "run_controller_volts",
      "first_run",
      `lever ${run}: where the battery's cable enters the controller`,
      (s) => s.run().controller_V,
    ),
    moving("run_motor_volts", "first_run", `lever ${run}: at the motor's terminals`, (s) => s.run().motor_V),
    yes("run_slips", "first_run", "does the motor turn while the driven wheels stand?", (s) => slips(s)),
    stopping("run_on", "first_run", `lever shut at ${speeds.walk_mps.toFixed(1)} m/s: how far it runs on`, (s) =>
      runs(s.run().speed_mps) ? s.stop_m("drag", speeds.walk_mps) : null,
    ),
    yes("restarts", "restart", "at the steepest place, uphill: does it start again?", (s) =>
      s.m.open || s.m.cutsOut || s.m.blocked || !s.m.forwards ? -CERTAIN : s.spare().start_N,
    ),
    amps("restart_amps", "restart", "lever opened slowly: amps in the motor's cable as it just moves", (s) =>
      existing(startingCurrent_A(s.m, s.m.train, s.m.steep)),
    ),
    amps(
      "restart_most_amps",
      "restart",
      "lever opened until it is full or the wheels are about to spin: the most amps in the motor's cable",
      (s) => s.hardest().motor_A,
    ),
    amps(
      "restart_battery_amps",
      "restart",
      "and with them the amps in the battery's cable",
      (s) => s.hardest().battery_A,
    ),
    moving(
      "restart_least_volts",
      "restart",
      "and with them the volts at the battery's terminals",
      (s) => s.hardest().battery_V,
    ),
    moving(
      "restart_controller_volts",
      "restart",
      "and where the battery's cable enters the controller",
      (s) => s.hardest().controller_V,
    ),
    yes("restart_slips", "restart", "does the motor turn while the driven wheels stand?", (s) => slips(s)),
    yes("restart_spins", "restart", "lever full: do the driven wheels spin?", (s) =>
      s.m.open ? -CERTAIN : -s.spare().grip_N,
    ),
    yes("restart_cuts_out", "restart", "does the controller shut itself off?", (s) => cutsOut(s, s.hardest())),
    ...(["drag", "electric", "loco", "all"] as const)
      .filter((set) => isFitted(set, train) && (set !== "all" || train.brakes.some(({ vehicle }) => vehicle > 0)))
      .map((set) =>
        stopping(
          `stop_${set}`,
          "stops",
          `from ${speeds.line_mps.toFixed(2)} m/s on the level, ${BY[set]}: from the mark to rest`,
          (s) => (runs(s.run().speed_mps) ? s.stop_m(set, speeds.line_mps) : null),
        ),
      ),
    ...(["loco", "all"] as const)
      .filter((set) =>
        train.brakes.some(({ parking, vehicle }) => parking && (set === "loco" ? vehicle === 0 : vehicle > 0)),
      )
      .map((set) =>
        yes(`parked_${set}`, "parked", `left at the steepest place with ${PARKED[set]} on: does it stay?`, (s) =>
          s.holds(set),
        ),
      ),
    slow(
      volts("after_volts", "after_laps", "whole battery, rested for a quarter of an hour", (s) => {
        const after = s.after();
        return after && rested_V({ ...s.m, charge: after.charge });
      }),
    ),
    slow(
      other(
        "after_winding",
        "after_laps",
        "winding, by its resistance or through the brush holes",
        "°C",
        "thermometer",
        (s) => s.after()?.winding_degC ?? null,
      ),
    ),
    slow(other("after_case", "after_laps", "motor's case", "°C", "thermometer", (s) => s.after()?.case_degC ?? null)),
    slow(
      amps(
        "after_amps",
        "after_laps",
        `on the level, lever ${run}: amps in the battery's cable`,
        (s) => s.warm()?.battery_A ?? null,
      ),
    ),
  ];
}

/** Slack to set, all the way up and down in the middle of the run. */
function slackOf_mm({ chain, teeth, centres_m }: Stage): number | undefined {
  if (!chain || !teeth || centres_m === undefined) return undefined;
  const sized = CHAINS[chain];
  return 1000 * slackOf(sized, span_m(sized.pitch_m, teeth, centres_m)).movement_m;
}

/** Lever full: by how much the pull is more than the sprockets pass on, where these give way before the wheels do. */
const slips = (s: States): number => (s.m.open ? -CERTAIN : Math.max(s.spare().slip_N, -CERTAIN));

const cutsOut = ({ m }: States, { controller_V }: Settled): number =>
  m.open ? -CERTAIN : m.cutsOut ? CERTAIN : m.train.controller.cutout_V - controller_V;

/** So far on one side that only a slip of the pen can miss it. */
export const CERTAIN = 1e9;

const BY = {
  drag: "power off, no brake",
  electric: "the electric brake",
  loco: "the loco's brake",
  all: "every brake",
} as const;
const PARKED = { loco: "the loco's brake", all: "every brake" } as const;

const existing = (value: number): number | null => (Number.isNaN(value) ? null : value);

/** Volts of one sound battery of the string. */
const ofOne_V = ({ inSeries }: Setting, { m }: States): number =>
  (rested_V({ ...m, weak: undefined }) + (m.weak?.short_V ?? 0)) / inSeries;

type Value = Reading["value"];

const makers = {
  volts: (reading: string, step: StepName, what: string, value: Value): Reading =>
    made(reading, step, what, "V", INSTRUMENT.voltmeter, value),
  moving: (reading: string, step: StepName, what: string, value: Value): Reading =>
    made(reading, step, what, "V", INSTRUMENT.voltsUnderWay, value),
  drop: (reading: string, step: StepName, what: string, value: Value): Reading =>
    made(reading, step, what, "V", INSTRUMENT.millivolts, value),
  amps: (reading: string, step: StepName, what: string, value: Value): Reading =>
    made(reading, step, what, "A", INSTRUMENT.ammeter, value),
  pull: (reading: string, step: StepName, what: string, value: Value): Reading =>
    made(reading, step, what, "N", INSTRUMENT.balance, value),
  holding: (reading: string, step: StepName, what: string, value: Value): Reading =>
    made(reading, step, what, "N", INSTRUMENT.holding, value),
  yes: (reading: string, step: StepName, what: string, value: Value): Reading =>
    made(reading, step, what, "yes/no", eyes, value),
  other: (
    reading: string,
    step: StepName,
    what: string,
    unit: ReadingUnit,
    by: keyof typeof INSTRUMENT,
    value: Value,
  ): Reading => made(reading, step, what, unit, INSTRUMENT[by], value),
  stopping: (reading: string, step: StepName, what: string, value: Value): Reading =>
    slow(made(reading, step, what, "m", INSTRUMENT.tape, value)),
};

const made = (
  reading: string,
  step: StepName,
  what: string,
  unit: ReadingUnit,
  instrument: Instrument | undefined,
  value: Value,
): Reading => ({ reading, step, what, unit, instrument, timed: false, value });

/** By a whole simulation. */
const slow = (reading: Reading): Reading => ({ ...reading, timed: true });
