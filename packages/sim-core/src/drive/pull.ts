import { transferred_N } from "../parts/adhesion.js";
import { startingWells_C } from "../parts/battery.js";
import { G_mps2 } from "../parts/constants.js";
import { rim_N } from "../parts/gears.js";
import * as at from "../state.js";
import { airAt_N, type Rolling, rollingAt_N } from "../train/rolling.js";
import type { Train } from "../train/train.js";
import { solveElectrics } from "./electrics.js";

/** The state of battery and motor that a pull is asked for; both wells level, nothing polarised. */
export interface Conditions {
  /** How full both wells are. */
  charge: number;
  winding_degC: number;
  case_degC: number;
}

/** How full the wells are after a rest at a charge: they hold more than the label that the charge is counted by. */
export const wellShare = ({ battery, availableFull_C }: Train, charge: number): number =>
  startingWells_C(battery, charge)[0] / availableFull_C;

/** What the drive gives at a speed with the lever at `lever`. */
export interface Pull {
  /** At the driven rims; the grip may not carry it. */
  rim_N: number;
  motor_A: number;
  battery_A: number;
  terminal_V: number;
  duty: number;
  limited_by: at.LimitedBy;
}

// Written over by every call: safe because nothing here waits.
const y = new Float64Array(at.SIZE);
const now = at.newInstant();
const POWERED: at.Mode = { ...at.atRest(1), train: 1, rim: 1, powered: true };

/** Pull at a steady speed; at 0 the motor's friction is against it, as at a restart. */
export function pullAt(train: Train, conditions: Conditions, speed_mps: number, lever = 1): Pull {
  const { motor, gears, radius_m } = train;
  y[at.AVAILABLE] = conditions.charge * train.availableFull_C;
  y[at.POLARISATION] = 0;
  y[at.WINDING] = conditions.winding_degC;
  y[at.CASE] = conditions.case_degC;
  const motor_radps = (speed_mps * gears.ratio) / radius_m;
  solveElectrics(train, POWERED, lever, y, motor_radps, now);
  const shaft_Nm = now.airGap_Nm - motor.drag_Nm - motor.dragPerSpeed_Nms * motor_radps;
  return {
    rim_N: rim_N(gears, radius_m, speed_mps === 0 ? Math.max(0, shaft_Nm) : shaft_Nm, 1),
    motor_A: now.motor_A,
    battery_A: now.battery_A,
    terminal_V: now.terminal_V,
    duty: now.duty,
    limited_by: now.limitedBy,
  };
}

/** The motor's own drag as seen at the tread, before the gears take anything, N; at 0 as it begins to turn or creeps. */
export const motorDrag_N = ({ gears, radius_m, motor }: Train, speed_mps: number): number =>
  ((motor.drag_Nm + (motor.dragPerSpeed_Nms * speed_mps * gears.ratio) / radius_m) * gears.ratio) / radius_m;

/** What the wheels must give to turn the drive at a steady speed with power off, at the rims, N. */
export const driveDrag_N = (train: Train, speed_mps: number): number =>
  motorDrag_N(train, speed_mps) / train.gears.efficiency;

/** What running steadily takes on the level and straight, N. */
export const resistance_N = (train: Rolling, speed_mps: number, wind_mps = 0): number =>
  rollingAt_N(train, speed_mps) + airAt_N(train, speed_mps + wind_mps);

/** What a gradient (sine, uphill +) takes of the whole train, N. */
export const gravity_N = (train: Rolling, sine: number): number => train.mass_kg * G_mps2 * sine;

/**
 * The greatest force the driven wheels pass on at a steady speed on a gradient, N. Where pulling shifts weight, the force
 * and the load it makes hang on each other, both straight lines, and are solved.
 */
export function grip_N(train: Rolling, sine: number): number {
  const { transfer, adhesion } = train;
  // Curves, counted in, may come to more than the weight: no wall is that steep.
  const level_N = adhesion.static * train.driven_N * Math.sqrt(Math.max(0, 1 - sine * sine));
  if (transfer.end === 0) return level_N;
  const locoGravity_N = train.locoBody_kg * G_mps2 * sine;
  const onto_N = (force_N: number) =>
    transfer.end * transferred_N(transfer, force_N - train.locoRolling_N - locoGravity_N, locoGravity_N);
  const at0_N = onto_N(0);
  const perN = onto_N(1) - at0_N;
  return Math.max(0, (level_N + adhesion.static * at0_N) / (1 - adhesion.static * perN));
}
