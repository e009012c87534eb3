import { leverShown, orElse, type Reading, readingsIn } from "./readings.kinds.js";
import { CERTAIN, certainly, cutsOut, isShut, slips, slipsRunning } from "./readings.margins.js";
import type { Setting } from "./setting.js";
import { neededToStart_N, standing, startingCurrent_A } from "./settled.js";
import type { States } from "./states.js";

// What is read with the train under power: on the level, and starting at the steepest place.

export function firstRun({ levers, speeds }: Setting): Reading[] {
  const { yes, amps, speed, voltsUnderWay, stopping } = readingsIn("first_run");
  const [walk, run] = [`lever ${leverShown(levers.walk)}`, `lever ${leverShown(levers.run)}`];
  return [
    yes("moves", "lever opened: does it move at all?", (s) => starts_N(s, levers.run)),
    orElse(
      yes("run_forwards", "does it set off forwards?", (s) => certainly(s.run().speed_mps > 0 && s.m.forwards)),
      "did not move",
      "moves",
    ),
    amps("start_amps", "lever opened slowly: amps in the motor's cable as it just moves", (s) =>
      startingCurrent_A(s.m, s.m.train, s.m.level, s.hardestOnLevel()),
    ),
    speed("walk_speed", `${walk}: steady speed, 0 if it stands`, (s) => s.walk().speed_mps),
    amps("walk_battery_amps", `${walk}: amps in the battery's cable`, (s) => s.walk().battery_A),
    speed("run_speed", `${run}: steady speed, 0 if it stands`, (s) => s.run().speed_mps),
    amps("run_motor_amps", `${run}: amps in the motor's cable, standing or running`, (s) => s.run().motor_A),
    amps("run_battery_amps", `${run}: amps in the battery's cable`, (s) => s.run().battery_A),
    voltsUnderWay("run_battery_volts", `${run}: at the battery's terminals`, (s) => s.run().battery_V),
    voltsUnderWay(
      "run_controller_volts",
      `${run}: where the battery's cable enters the controller`,
      (s) => s.run().controller_V,
    ),
    voltsUnderWay("run_motor_volts", `${run}: at the motor's terminals`, (s) => s.run().motor_V),
    yes("run_slips", "does the motor turn while the driven wheels stand?", (s) => slipsRunning(s, levers.run)),
    stopping("run_on", `lever shut at ${speeds.walk_mps.toFixed(1)} m/s: how far it runs on`, (s) =>
      s.run().speed_mps > 0 ? s.stop_m("drag", speeds.walk_mps) : null,
    ),
  ];
}

/** By how much the pull is more than what holds the train on the level. */
const starts_N = (s: States, lever: number): number =>
  s.m.blocked || isShut(s)
    ? -CERTAIN
    : standing(s.m, s.m.train, s.m.level, lever).force_N - neededToStart_N(s.m, s.m.train, s.m.level);

export function restarted(): Reading[] {
  const { yes, amps, voltsUnderWay } = readingsIn("restart");
  return [
    yes("restarts", "at the steepest place, uphill: does it start again?", (s) =>
      isShut(s) || s.m.cutsOut || s.m.blocked || !s.m.forwards ? -CERTAIN : s.spare().start_N,
    ),
    amps("restart_amps", "lever opened slowly: amps in the motor's cable as it just moves", (s) =>
      startingCurrent_A(s.m, s.m.train, s.m.steep, s.hardest()),
    ),
    amps(
      "restart_most_amps",
      "lever opened until it is full or the wheels are about to spin: the most amps in the motor's cable",
      (s) => s.hardest().motor_A,
    ),
    amps("restart_battery_amps", "and with them the amps in the battery's cable", (s) => s.hardest().battery_A),
    voltsUnderWay(
      "restart_least_volts",
      "and with them the volts at the battery's terminals",
      (s) => s.hardest().battery_V,
    ),
    voltsUnderWay(
      "restart_controller_volts",
      "and where the battery's cable enters the controller",
      (s) => s.hardest().controller_V,
    ),
    yes("restart_slips", "does the motor turn while the driven wheels stand?", slips),
    yes("restart_spins", "lever full: do the driven wheels spin?", (s) => (isShut(s) ? -CERTAIN : -s.spare().grip_N)),
    yes("restart_cuts_out", "does the controller shut itself off?", (s) => cutsOut(s, s.hardest())),
  ];
}
