import { driveDrag_N, gravity_N } from "../../drive/pull.js";
import type { Train } from "../../train/train.js";
import { leverShown, type Reading, readingsIn } from "./readings.kinds.js";
import { cutsOut } from "./readings.margins.js";
import type { Setting } from "./setting.js";
import { gripHolds_N, gripSlides_N, type Settled } from "./settled.js";
import type { States } from "./states.js";

// What is read at a spring balance: the loco held back by it, and then drawn by it with everything off.

export function heldBack({ levers }: Setting): Reading[] {
  const { amps, volts, pulses, holding, drop, yes } = readingsIn("held");
  const gently = `lever ${leverShown(levers.held)}`;
  // The balance has what the rims give, less what the loco rolls with.
  const balance_N = ({ m }: States, { force_N }: Settled) =>
    m.forwards ? Math.max(0, force_N - m.light.rolling_N) : 0;
  return [
    amps("held_motor_amps", `${gently}: amps in the motor's cable`, (s) => s.held().motor_A),
    amps("held_battery_amps", `${gently}: amps in the battery's cable`, (s) => s.held().battery_A),
    volts("held_battery_volts", `${gently}: at the battery's terminals`, (s) => s.held().battery_V),
    volts(
      "held_controller_volts",
      `${gently}: where the battery's cable enters the controller`,
      (s) => s.held().controller_V,
    ),
    pulses("held_output_volts", `${gently}: at the controller's terminals for the motor`, (s) => s.held().output_V),
    pulses("held_motor_volts", `${gently}: at the motor's terminals`, (s) => s.held().motor_V),
    drop("held_motor_drop", `${gently}: volts lost along both leads of the motor, lowest range; 0 means no amps`, (s) =>
      lostToMotor_V(s, s.held()),
    ),
    holding("held_pull", `${gently}: pull at the spring balance`, (s) => balance_N(s, s.held())),
    holding("most_pull", "lever opened slowly until full or the wheels are about to slip, a second or two: pull", (s) =>
      balance_N(s, s.heldHardest()),
    ),
    amps("most_motor_amps", "and then: amps in the motor's cable", (s) => s.heldHardest().motor_A),
    drop(
      "most_battery_drop",
      "and then: volts from the battery's post to the controller's, along one lead and back along the other",
      (s) => s.heldHardest().battery_A * s.m.light.batteryCable_ohm,
    ),
    drop("most_motor_drop", "and then: volts from the controller's post to the motor's, along both leads", (s) =>
      lostToMotor_V(s, s.heldHardest()),
    ),
    yes("most_cuts_out", "and then: does the controller shut itself off?", (s) => cutsOut(s, s.heldHardest())),
  ];
}

/** Volts that the motor's two leads take; across an open lead stands what the controller gives. */
const lostToMotor_V = ({ m }: States, { motor_A, output_V }: Settled): number =>
  m.open === "motor" ? output_V : motor_A * (m.light.motorPath_ohm - m.light.controller.on_ohm);

/** A rise in ten metres, mm, to a sine. */
const IN_TEN_METRES_mm = 1e4;

export function rolled(): Reading[] {
  const { pull, rise } = readingsIn("rolling");
  // What the drive drags with comes through the rail, which lets go beyond its grip: the wheels are dragged along then.
  const creeping_N = (t: Train) => t.rolling_N + Math.min(driveDrag_N(t, 0), gripSlides_N(t));
  return [
    pull(
      "roll_loco_start",
      "loco alone, everything off: pull to start it",
      ({ m }) => m.light.breakaway_N + Math.min(driveDrag_N(m.light, 0), gripHolds_N(m.light)),
    ),
    pull("roll_loco", "loco alone: pull to keep it creeping, mean of both ways", ({ m }) => creeping_N(m.light)),
    rise(
      "level_rise",
      "rise of the rail in ten metres of the level stretch, forwards",
      ({ m }) => IN_TEN_METRES_mm * (m.level - m.curving.level),
    ),
    rise(
      "steep_rise",
      "rise in ten metres of the steepest place, uphill",
      ({ m }) => IN_TEN_METRES_mm * (m.steep - m.curving.steep),
    ),
    pull(
      "roll_train",
      "whole train, driver aboard, on the level stretch: pull to keep it creeping forwards",
      ({ m }) => (m.blocked ? null : creeping_N(m.train) + gravity_N(m.train, m.level)),
    ),
    pull("roll_train_back", "the same backwards", ({ m }) =>
      m.blocked ? null : Math.max(0, creeping_N(m.train) - gravity_N(m.train, m.level)),
    ),
    pull(
      "roll_loco_steep",
      "loco alone at the steepest place: pull to keep it creeping uphill",
      ({ m }) => creeping_N(m.light) + gravity_N(m.light, m.steep),
    ),
  ];
}
