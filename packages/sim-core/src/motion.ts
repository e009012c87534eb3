import { solveElectrics } from "./electrics.js";
import { shiftWhileGripping, shiftWhileSliding } from "./grip.js";
import { lookUp } from "./numeric/tables.js";
import { flow_A, labelShare, polarisationRate_Aps } from "./parts/battery.js";
import { appliedAt } from "./parts/brakes.application.js";
import { imageRate_ps } from "./parts/breaker.js";
import { rim_N } from "./parts/gears.js";
import { caseRate_Kps, coolingShare, windingRate_Kps } from "./parts/heat.nodes.js";
import { stretchAt } from "./parts/track.js";
import { driveDrag_N } from "./pull.js";
import * as at from "./state.js";
import type { Working } from "./working.js";

/**
 * The derivative: the whole train's physics in one reading. The mode decides which way each friction acts and is fixed
 * during a step, so that this is continuous; what it works out on the way it leaves in `w.now`.
 */
export function motion(w: Working, dydt: Float64Array, y: Float64Array, time_s: number): void {
  const { train, mode, now } = w;
  lieOfTheLine(w, y[at.POSITION]);

  const speed_mps = y[at.SPEED];
  const rim_mps = mode.wheels === 0 ? speed_mps : y[at.RIM_SPEED];
  const motor_radps = (rim_mps * train.gears.ratio) / train.radius_m;
  solveElectrics(train, mode, w.lever, y, motor_radps, now);
  const drag_Nm = mode.rim * train.motor.drag_Nm + train.motor.dragPerSpeed_Nms * motor_radps;
  now.rim_N = mode.rim === 0 ? pullAtRest_N(w) : rim_N(train.gears, train.radius_m, now.airGap_Nm - drag_Nm, mode.rim);

  const airSpeed_mps = speed_mps + w.wind_mps;
  now.air_N = train.airFactor * airSpeed_mps * Math.abs(airSpeed_mps);
  now.rolling_N = mode.train * train.rolling_N + train.rolling_Nspm * speed_mps;
  brakes(w, time_s);
  // At rest their brake takes as much of the motor's pull as there is; turning, all that it can.
  const driven_N = now.rim_N - (mode.rim === 0 ? Math.min(now.brakeRim_N, now.rim_N) : mode.rim * now.brakeRim_N);
  const resisting_N = now.gravity_N + now.air_N + now.rolling_N + mode.train * (now.curves_N + now.brakeAxles_N);
  if (mode.wheels === 0) {
    now.acceleration_mps2 = mode.train === 0 ? 0 : (driven_N - resisting_N) / train.effective_kg;
    now.rimAcceleration_mps2 = now.acceleration_mps2;
    now.contact_N = driven_N - train.rim_kg * now.acceleration_mps2;
    if (train.transfer.end !== 0) shiftWhileGripping(w);
  } else {
    if (train.transfer.end !== 0) shiftWhileSliding(w, resisting_N);
    now.contact_N = mode.wheels * now.slidingGrip_N;
    now.acceleration_mps2 = mode.train === 0 ? 0 : (now.contact_N - resisting_N) / train.translating_kg;
    now.rimAcceleration_mps2 = mode.rim === 0 ? 0 : (driven_N - now.contact_N) / train.rim_kg;
  }

  now.hold_N = train.breakaway_N + now.curves_N + now.brakeAxles_N;

  dydt[at.POSITION] = speed_mps;
  dydt[at.SPEED] = now.acceleration_mps2;
  dydt[at.RIM_SPEED] = now.rimAcceleration_mps2;
  dydt[at.RUN] = mode.train * speed_mps;
  batteryAndHeat(w, dydt, y, drag_Nm * motor_radps, motor_radps);
  mechanicalBooks(w, dydt, speed_mps, rim_mps, drag_Nm, motor_radps);
}

/** What would move a train that runs forwards if power and brakes were off, N: with what `motion` last left in `now`. */
export const coasting_N = ({ train, now }: Working, speed_mps: number): number =>
  0 - driveDrag_N(train, speed_mps) - now.gravity_N - now.air_N - now.rolling_N - now.curves_N;

/** Gravity, curves and grip, from the height and the curvature under both ends of every vehicle. */
function lieOfTheLine(w: Working, head_m: number): void {
  const { train, track, now, heights_m, turns_rad, hints } = w;
  const { distance_m: d, height_m: h, turned_rad: b } = track;
  const ends = train.ends_m;
  const circuit = track.kind === "circuit";
  for (let i = 0; i < ends.length; i++) {
    const along_m = head_m - ends[i];
    const laps = circuit ? Math.floor(along_m / track.length_m) : 0;
    const x = along_m - laps * track.length_m;
    const k = stretchAt(track, x, hints[i]);
    const share = (x - d[k]) / (d[k + 1] - d[k]);
    hints[i] = k;
    heights_m[i] = h[k] + share * (h[k + 1] - h[k]);
    turns_rad[i] = b[k] + share * (b[k + 1] - b[k]) + laps * b[b.length - 1];
  }
  let gravity_N = 0;
  let curves_N = 0;
  for (let i = 0; i + 1 < ends.length; i++) {
    gravity_N += train.gravity_Npm[i] * (heights_m[i] - heights_m[i + 1]);
    curves_N += train.curving_Nprad[i] * (turns_rad[i] - turns_rad[i + 1]);
  }
  const loco = train.loco;
  now.locoGravity_N = train.gravity_Npm[loco] * (heights_m[loco] - heights_m[loco + 1]);
  now.locoCurves_N = train.curving_Nprad[loco] * (turns_rad[loco] - turns_rad[loco + 1]);
  const sine = (heights_m[loco] - heights_m[loco + 1]) / (ends[loco + 1] - ends[loco]);
  now.onDrivers_N = train.driven_N * Math.sqrt(1 - sine * sine);
  now.gravity_N = gravity_N;
  now.curves_N = curves_N;
  now.staticGrip_N = train.adhesion.static * now.onDrivers_N;
  now.slidingGrip_N = train.adhesion.sliding * now.onDrivers_N;
}

/** Brakes as far as they are on; on axles that are not driven no more than these pass on, rolling, locked or standing. */
function brakes(w: Working, time_s: number): void {
  const { train, mode, now, application, axleBrake_N } = w;
  now.brakeRim_N = 0;
  now.brakeAxles_N = 0;
  now.locked_N = 0;
  if (train.brakes.length === 0) return;
  axleBrake_N.fill(0);
  for (let i = 0; i < train.brakes.length; i++) {
    const brake = train.brakes[i];
    const share = appliedAt(train.brakes, application, i, time_s);
    now.brakeRim_N += share * brake.rim_N;
    axleBrake_N[brake.vehicle] += share * brake.axle_N;
  }
  for (let v = 0; v < axleBrake_N.length; v++) {
    const sliding_N = train.adhesion.sliding * train.brakedAxles_N[v];
    const static_N = train.adhesion.static * train.brakedAxles_N[v];
    if (mode.locked[v]) now.locked_N += sliding_N;
    else now.brakeAxles_N += mode.train === 0 ? Math.min(axleBrake_N[v], static_N) : axleBrake_N[v];
  }
  now.brakeAxles_N += now.locked_N;
}

/** What the motor's torque brings to standing rims once its own friction is overcome. */
const pullAtRest_N = (w: Working): number => Math.max(0, rimForwards_N(w));

/** Force at standing rims about to turn forwards: the motor's friction and the gears' loss are against it. */
export const rimForwards_N = ({ train, now }: Working): number =>
  rim_N(train.gears, train.radius_m, now.airGap_Nm - train.motor.drag_Nm, 1);

/** Force at standing rims about to turn backwards: both now help to hold. */
export const rimBackwards_N = ({ train, now }: Working): number =>
  rim_N(train.gears, train.radius_m, now.airGap_Nm + train.motor.drag_Nm, -1);

/**
 * What would move a standing train forwards, against which only `hold_N` stands. Pull and brake of the driven wheels
 * meet in their rims; what is left comes through the rail, and holds no more than that grips.
 */
export function leavingForwards_N(w: Working): number {
  const { mode, now } = w;
  const driven_N = Math.max(rimForwards_N(w) - now.brakeRim_N, -now.staticGrip_N);
  return (mode.wheels === 0 ? driven_N : now.contact_N) - now.gravity_N - now.air_N;
}

/** The same backwards. */
export function leavingBackwards_N(w: Working): number {
  const { mode, now } = w;
  const driven_N = Math.min(rimBackwards_N(w) + now.brakeRim_N, now.staticGrip_N);
  return now.gravity_N + now.air_N - (mode.wheels === 0 ? driven_N : now.contact_N);
}

function batteryAndHeat(w: Working, dydt: Float64Array, y: Float64Array, drag_W: number, motor_radps: number): void {
  const { train, now } = w;
  const { battery, heat, breaker } = train;
  const flow = flow_A(battery, y[at.AVAILABLE], y[at.BOUND]);
  const current_A = now.battery_A;
  dydt[at.AVAILABLE] = flow - current_A;
  dydt[at.BOUND] = -flow;
  dydt[at.POLARISATION] = polarisationRate_Aps(battery, y[at.POLARISATION], current_A);

  const copper_W = now.winding_ohm * now.motor_A * now.motor_A;
  const brush_W = now.brush_V * now.motor_A;
  dydt[at.WINDING] = windingRate_Kps(heat, copper_W + brush_W, y[at.WINDING], y[at.CASE]);
  dydt[at.CASE] = caseRate_Kps(heat, drag_W, y[at.WINDING], y[at.CASE], w.air_degC, coolingShare(heat, motor_radps));
  dydt[at.BREAKER] = imageRate_ps(breaker, y[at.BREAKER], current_A);

  const rested_V = lookUp(battery.rested, labelShare(battery, y[at.AVAILABLE] / train.availableFull_C));
  const terminal_W = now.terminal_V * current_A;
  dydt[at.DRAWN_CHARGE] = current_A;
  dydt[at.DRAWN] = Math.max(0, terminal_W);
  dydt[at.RETURNED] = Math.max(0, -terminal_W);
  dydt[at.BATTERY_SQUARE] = current_A * current_A;
  dydt[at.MOTOR_SQUARE] = now.motor_A * now.motor_A;
  dydt[at.RECOVERY] =
    flow === 0 ? 0 : flow * (lookUp(battery.rested, labelShare(battery, y[at.BOUND] / train.boundFull_C)) - rested_V);
  dydt[at.KNEE] = (rested_V - now.emf_V - battery.polarisation_ohm * y[at.POLARISATION]) * current_A;
  dydt[at.POLARISATION_LOSS] = battery.polarisation_ohm * y[at.POLARISATION] * y[at.POLARISATION];
  dydt[at.STANDING] = (current_A - now.duty * now.motor_A) * now.supply_V;
  const resisted = w.mode.braking && train.controller.electricBrake === "rheostatic";
  dydt[at.BRAKE_RESISTOR] = resisted ? -now.motor_V * now.motor_A : 0;
  dydt[at.COPPER] = copper_W;
  dydt[at.BRUSHES] = brush_W;
}

/** Where the work of every force goes; each a loss line of its own. */
function mechanicalBooks(
  w: Working,
  dydt: Float64Array,
  speed_mps: number,
  rim_mps: number,
  drag_Nm: number,
  motor_radps: number,
): void {
  const { mode, now } = w;
  dydt[at.MOTOR_DRAG] = drag_Nm * motor_radps;
  dydt[at.GEARS] = (now.airGap_Nm - drag_Nm) * motor_radps - now.rim_N * rim_mps;
  dydt[at.SLIP] = now.contact_N * (rim_mps - speed_mps) + mode.train * now.locked_N * speed_mps;
  dydt[at.BRAKES] = mode.rim * now.brakeRim_N * rim_mps + mode.train * (now.brakeAxles_N - now.locked_N) * speed_mps;
  dydt[at.ROLLING] = now.rolling_N * speed_mps;
  dydt[at.CURVES] = mode.train * now.curves_N * speed_mps;
  dydt[at.AIR] = now.air_N * speed_mps;
}
