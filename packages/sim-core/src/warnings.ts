import { type Notes, shown } from "./errors.js";
import { rim_N } from "./parts/gears.js";
import { motorFlux_NmpA } from "./parts/motor.points.js";
import { carries_A } from "./parts/wiring.js";
import type { Train } from "./train.js";

/** Chain makers' limits: one stage at most 7 to 1, and a sprocket of at least 9 teeth (below, the chain runs rough). */
const MOST_RATIO = 7;
const FEWEST_TEETH = 9;
/** Faster than any club line allows its passengers, m/s: 10 mph. */
const FAST_mps = 4.4704;
/** A motor held at more than this many times its rated current is soon too hot (common practice, no source). */
const MOST_CURRENT = 3;
/** Motor and battery volts may differ by this share. */
const VOLTS_ALIKE = 0.15;
const LEAST_RESERVE = 0.1;

/** What can be built but should be looked at first. Codes are fixed. */
export function lookForTrouble(train: Train, notes: Notes): void {
  const warn = (code: string, path: string, message: string) => notes.warnings.push({ code, path, message });
  const { gears, motor, battery, controller, breaker, protection, wiring } = train;

  gears.stages.forEach((stage, i) => {
    const path = `loco.gears.${i + 1}`;
    if (stage.ratio > MOST_RATIO) {
      warn("stage_ratio", path, `${shown(stage.ratio)} to 1 in one stage; more than 7 to 1 wants two stages`);
    }
    if (stage.teeth && Math.min(...stage.teeth) < FEWEST_TEETH) {
      warn(
        "few_teeth",
        `${path}.teeth`,
        `${Math.min(...stage.teeth)} teeth; with fewer than 9 a chain runs rough and wears fast`,
      );
    }
  });
  const rated_mps = (motor.rated.speed_radps * train.radius_m) / gears.ratio;
  if (rated_mps > FAST_mps) {
    const found = `${shown(rated_mps, "m/s")} (${shown(rated_mps / 0.44704, "mph")}) at the motor's rated speed`;
    warn("fast", "loco.gears", `${found}; over 10 mph is faster than club lines carry passengers`);
  }
  if (controller.motorLimit_A > MOST_CURRENT * motor.rated.current_A) {
    const found = `${shown(controller.motorLimit_A, "A")} is over three times the motor's rated ${shown(motor.rated.current_A, "A")}`;
    warn("motor_limit", "loco.controller.motor_current_limit", `${found}; it overheats in moments at that`);
  }
  if (Math.abs(motor.rated.voltage_V / battery.nominal_V - 1) > VOLTS_ALIKE) {
    const found = `a ${shown(motor.rated.voltage_V, "V")} motor on a ${shown(battery.nominal_V, "V")} battery`;
    warn("volts_unlike", "loco.battery", `${found}; its speed goes with the volts`);
  }
  const pull_N = pullAtLimit_N(train);
  const grip_N = train.adhesion.static * train.driven_N;
  if (pull_N > grip_N) {
    const found = `the current limit would pull ${shown(pull_N, "N")} and the driven wheels grip at ${shown(grip_N, "N")}`;
    warn("slips_before_limit", "loco.controller.motor_current_limit", `${found}: on level rail they slip first`);
  }
  if (battery.reserve < LEAST_RESERVE) {
    warn("small_reserve", "loco.battery.use_down_to", `${shown(100 * battery.reserve)} % is little to come home on`);
  }
  if (battery.chemistry === "lifepo4" && !protection.fitted) {
    const message =
      "no protection is described: a lithium battery needs its own cut-off against short circuit, overcharge and deep discharge";
    warn("lithium_without_protection", "loco.battery.chemistry", message);
  }
  if (breaker.kind === "none") {
    warn("no_breaker", "loco.wiring", "no breaker or fuse: a short circuit of a battery like this burns cables");
  } else if (breaker.rating_A > carries_A(wiring.batteryCable_mm2)) {
    const found = `the ${shown(breaker.rating_A, "A")} ${breaker.kind} guards a ${shown(wiring.batteryCable_mm2, "mm²")} cable that carries ${shown(carries_A(wiring.batteryCable_mm2), "A")}`;
    warn(
      "breaker_above_cable",
      `loco.wiring.${breaker.kind}`,
      `${found} (IEC 60364-5-52, method B2, 30 °C): the cable burns first`,
    );
  }
  if (train.brakes.length === 0) {
    const message = "no brake is described: nothing here shows that the train can be stopped or stays put when parked";
    warn("no_brake", "loco", message);
  }
}

/** Pull of the motor at its current limit with the train standing, cold. */
export const pullAtLimit_N = ({ motor, gears, controller, radius_m }: Train): number => {
  const airGap_Nm = motorFlux_NmpA(motor, controller.motorLimit_A, 20) * controller.motorLimit_A;
  return rim_N(gears, radius_m, Math.max(0, airGap_Nm - motor.drag_Nm), 1);
};
