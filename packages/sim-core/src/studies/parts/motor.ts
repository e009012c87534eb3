import type { Plan } from "../../train/plan.js";
import { mostVolts_V } from "../../train/train.js";
import { continuousCurrent_A } from "../gears/steady.js";
import type { RunAnswer } from "../once.js";
import type { PartLine } from "./answer.js";

/** Each of several equal motors, judged at rated speed; a motor cooled by its own fan carries less where it runs slower, which `gears` and `run` tell. */
export function motorLine({ train }: Plan, { outcome, rms_motor_current_A }: RunAnswer): PartLine {
  const round = outcome === "completed";
  const { rated, count, paths } = train.motor;
  const carries_A = continuousCurrent_A(train);
  const told = (value: number) => Number.isFinite(value);
  return {
    part: "motor",
    place: null,
    count,
    have: true,
    figures: {
      ...(told(rated.voltage_V) && { voltage_V: (rated.voltage_V * paths) / count }),
      ...(told(rated.power_W) && { power_W: rated.power_W / count }),
      ...(told(rated.speed_radps) && { speed_radps: rated.speed_radps }),
      current_A: carries_A / paths,
    },
    wanted: round ? { current_A: rms_motor_current_A / paths } : {},
    margin: round && rms_motor_current_A > 0 ? carries_A / rms_motor_current_A : null,
    enough: round ? carries_A >= rms_motor_current_A : null,
    rule: "rms_current",
  };
}

/** What a rheostatic brake heats, where it is more than the motor shorted: at the controller's limit, for as long as it brakes. */
export function resistorLines({ train: { controller } }: Plan): PartLine[] {
  const { brakeResistor_ohm: resistance_ohm, motorLimit_A: current_A } = controller;
  if (!(resistance_ohm > 0)) return [];
  return [
    {
      part: "brake_resistor",
      place: null,
      count: 1,
      have: true,
      figures: { resistance_ohm },
      wanted: Number.isFinite(current_A) ? { current_A, power_W: current_A ** 2 * resistance_ohm } : {},
      margin: null,
      enough: null,
      rule: "braking_limit",
    },
  ];
}

export function controllerLine({ train }: Plan, { peak_motor_current_A }: RunAnswer): PartLine {
  const limit_A = train.controller.motorLimit_A;
  return {
    part: "controller",
    place: null,
    count: 1,
    have: true,
    figures: { ...(Number.isFinite(limit_A) && { current_A: limit_A }), voltage_V: train.battery.nominal_V },
    wanted: { current_A: peak_motor_current_A, voltage_V: mostVolts_V(train) },
    margin: null,
    enough: null,
    rule: "starting_current",
  };
}
