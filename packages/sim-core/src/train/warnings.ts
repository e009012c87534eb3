import { currentForTorque } from "../drive/circuit.js";
import { resistance_N } from "../drive/pull.js";
import { type Notes, newNotes, shown } from "../errors.js";
import { HOUR_s } from "../parts/battery.data.js";
import { FEWEST_TEETH, MOST_RATIO } from "../parts/chain.js";
import { MPH_mps } from "../parts/constants.js";
import type { LocoDefinition } from "../parts/files.keys.js";
import { rim_N } from "../parts/gears.js";
import { createHeat } from "../parts/heat.js";
import { coolingShare, settledWinding_degC } from "../parts/heat.nodes.js";
import { fluxFactor, motorBrush_V, motorFlux_NmpA, ratedLosses } from "../parts/motor.points.js";
import type { Track } from "../parts/track.js";
import { carries_A } from "../parts/wiring.js";
import { curvesAt_N, gravityAt_N } from "./line.js";
import type { Train } from "./train.js";

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
    const found = `${shown(rated_mps, "m/s")} (${shown(rated_mps / MPH_mps, "mph")}) at the motor's rated speed`;
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

/** A fan on the shaft moves too little air below this share of rated speed (a maker of drives: derate there, or blow). */
const SLOW = 0.5;
/** Places at which a line is looked at, each way. */
const PLACES = 64;

/** A train that runs round its line at a steady speed. */
interface RunsSteadily {
  readonly train: Train;
  readonly track: Track;
  readonly wind_mps: number;
  readonly air_degC: number;
  readonly speed_mps: number;
}

/**
 * A motor that runs slowly leans on its plate: is it too hot in the end if the plate means an hour, or a fan on the shaft,
 * where the loco file does not say?
 */
export function lookForSlowHeat(plan: RunsSteadily, heat: LocoDefinition["motor"]["heat"], notes: Notes): void {
  const { train, speed_mps, air_degC } = plan;
  const { motor, gears, radius_m } = train;
  const motor_radps = (speed_mps * gears.ratio) / radius_m;
  if (!(motor_radps < SLOW * motor.rated.speed_radps)) return;
  const current_A = rmsRoundTheLine_A(plan, motor_radps);
  const four = heat?.winding_capacity_JpK !== undefined;
  const doubts = [
    ...(heat?.cooling === undefined ? [{ cooling: "fan" as const }] : []),
    ...(heat?.continuous_for_s === undefined && !four ? [{ continuous_for_s: HOUR_s }] : []),
  ];
  const limit = (read: LocoDefinition["motor"]["heat"]) => {
    const nodes = createHeat({ ...heat, ...read }, ratedLosses(motor), newNotes());
    const load = {
      copper20_W: motor.resistance20_ohm * current_A ** 2,
      brush_W: motorBrush_V(motor, current_A) * current_A,
      drag_W: (motor.drag_Nm + motor.dragPerSpeed_Nms * motor_radps) * motor_radps,
      cooled: coolingShare(nodes, motor_radps),
    };
    return settledWinding_degC(nodes, load, air_degC) > nodes.limit_degC;
  };
  const leaning = doubts.filter(limit);
  if (leaning.length === 0 || limit({})) return;
  const found = `at ${shown(speed_mps, "m/s")} the motor turns at ${shown((100 * motor_radps) / motor.rated.speed_radps)} % of its rated speed and draws ${shown(current_A, "A")} for long (rms round the line), of the ${shown(motor.rated.current_A, "A")} on its plate`;
  const told = leaning.map((read) =>
    "cooling" in read
      ? "with a fan on its shaft it gets too hot so slow (say cooling: fan, or still)"
      : "if the plate means an hour it gets too hot in the end (say continuous_for: 60 min, or more)",
  );
  notes.warnings.push({
    code: "rating_at_low_speed",
    path: "loco.motor.heat",
    message: `${found}; ${told.join("; ")}`,
  });
}

/** Motor current, root mean square over the line out and back, at a steady speed with the motor as hot as its class allows. */
function rmsRoundTheLine_A({ train, track, wind_mps, speed_mps, air_degC }: RunsSteadily, motor_radps: number): number {
  const { motor, gears, radius_m, heat } = train;
  const ofRise = heat.caseToAir_KpW / (heat.windingToCase_KpW + heat.caseToAir_KpW);
  const flux = fluxFactor(motor, air_degC + ofRise * (heat.limit_degC - air_degC));
  const drag_Nm = motor.drag_Nm + motor.dragPerSpeed_Nms * motor_radps;
  const level_N = resistance_N(train, speed_mps, wind_mps);
  const from_m = track.kind === "circuit" ? 0 : train.length_m;
  const ways = track.kind === "circuit" ? [1] : [1, -1];
  let square_A2 = 0;
  for (let i = 0; i < PLACES; i++) {
    const head_m = from_m + ((i + 0.5) / PLACES) * (track.length_m - from_m);
    const curves_N = curvesAt_N(train, track, head_m);
    for (const way of ways) {
      const force_N = Math.max(0, level_N + curves_N + way * gravityAt_N(train, track, head_m));
      const shaft_Nm = (force_N * radius_m) / (gears.ratio * gears.efficiency);
      square_A2 += currentForTorque(motor, flux, shaft_Nm + drag_Nm) ** 2;
    }
  }
  return Math.min(train.controller.motorLimit_A, Math.sqrt(square_A2 / PLACES / ways.length));
}

/** Pull of the motor at its current limit with the train standing, cold. */
export const pullAtLimit_N = ({ motor, gears, controller, radius_m }: Train): number => {
  const airGap_Nm = motorFlux_NmpA(motor, controller.motorLimit_A, 20) * controller.motorLimit_A;
  return rim_N(gears, radius_m, Math.max(0, airGap_Nm - motor.drag_Nm), 1);
};
