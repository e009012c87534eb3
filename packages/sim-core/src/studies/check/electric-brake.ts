import { solveElectrics } from "../../drive/electrics.js";
import { wellShare } from "../../drive/pull.js";
import { rim_N } from "../../parts/gears.js";
import * as at from "../../state.js";
import type { Plan } from "../../train/plan.js";
import { startsFull } from "../../working.js";

/** What braking with the motor comes to, motor cold. */
export interface ElectricBrakeAnswer {
  kind: "rheostatic" | "regenerative";
  /**
   * Force at the rims with its lever full on at `at_speed_mps`, the motor's drag and the gears' loss included; with the
   * battery half charged, and charged as the plan has it at the start, where it may take less or nothing.
   */
  force_N: number;
  force_at_start_N: number;
  at_speed_mps: number;
  /** Net current into the half charged battery there, after the standing load; 0 for a resistor. */
  returned_A: number;
  /** Slower than this it returns nothing: the standing load takes all there is. Null for a resistor. */
  lowest_returning_speed_mps: number | null;
}

/** Of a plan whose controller brakes with the motor; null where it does not. */
export function electricBrake(plan: Plan): ElectricBrakeAnswer | null {
  const { train } = plan;
  const { controller, motor, gears, radius_m } = train;
  const kind = controller.electricBrake;
  if (kind === "none") return null;
  const at_speed_mps = Number.isNaN(plan.speed_mps)
    ? (motor.rated.speed_radps * radius_m) / gears.ratio
    : plan.speed_mps;
  const motor_radps = (at_speed_mps * gears.ratio) / radius_m;
  const drag_Nm = motor.drag_Nm + motor.dragPerSpeed_Nms * motor_radps;
  const y = new Float64Array(at.SIZE);
  y[at.WINDING] = plan.air_degC;
  y[at.CASE] = plan.air_degC;
  const now = at.newInstant();
  const force_N = (charge: number, full: boolean) => {
    const mode: at.Mode = { ...at.atRest(train.vehicles.length), train: 1, rim: 1, powered: true, braking: true, full };
    y[at.AVAILABLE] = wellShare(train, charge) * train.availableFull_C;
    solveElectrics(train, mode, -1, y, motor_radps, now);
    return -rim_N(gears, radius_m, now.airGap_Nm - drag_Nm, 1);
  };
  const force_at_start_N = force_N(plan.charge, startsFull(plan));
  return {
    kind,
    force_N: force_N(Math.min(plan.charge, HALF), false),
    force_at_start_N,
    at_speed_mps,
    returned_A: Math.max(0, -now.battery_A),
    lowest_returning_speed_mps: kind === "regenerative" ? lowestReturning_mps(plan, now) : null,
  };
}

const HALF = 0.5;

/**
 * A generator of k ω behind R gives at most (k ω)²/4R: below the speed at which that is the standing load, nothing is left
 * for the battery.
 */
function lowestReturning_mps({ train }: Plan, now: at.Instant): number {
  const path_ohm = now.winding_ohm + train.motorPath_ohm;
  const standing_W = train.standing_A * now.emf_V;
  const made_V = 2 * Math.sqrt(path_ohm * standing_W) + Math.abs(now.brush_V);
  return ((made_V / now.flux_NmpA) * train.radius_m) / train.gears.ratio;
}
