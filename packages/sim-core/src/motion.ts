import { solveElectrics } from "./drive/electrics.js";
import { turn } from "./drive/meshes.js";
import { motorDrag_N } from "./drive/pull.js";
import { shiftWhileGripping, shiftWhileSliding } from "./loop/grip.js";
import { pullAtRest_N } from "./loop/standing.js";
import { lookUp } from "./numeric/tables.js";
import { flow_A, labelShare, polarisationRate_Aps } from "./parts/battery.js";
import { appliedAt } from "./parts/brakes.application.js";
import { imageRate_ps } from "./parts/breaker.js";
import { caseRate_Kps, coolingShare, windingRate_Kps } from "./parts/heat.nodes.js";
import { stretchAt } from "./parts/track.js";
import * as at from "./state.js";
import { airAt_N, rollingAt_N } from "./train/rolling.js";
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
  now.shaft_N = ((now.airGap_Nm - drag_Nm) * train.gears.ratio) / train.radius_m;

  now.air_N = airAt_N(train, speed_mps + w.wind_mps);
  now.rolling_N = rollingAt_N(train, speed_mps, mode.train);
  brakes(w, time_s);
  const resisting_N = now.gravity_N + now.air_N + now.rolling_N + mode.train * (now.curves_N + now.brakeAxles_N);
  if (mode.wheels !== 0) slide(w, resisting_N);
  else if (mode.train !== 0) roll(w, resisting_N);
  else stand(w);

  now.hold_N = train.breakaway_N + now.curves_N + now.brakeAxles_N;

  dydt[at.POSITION] = speed_mps;
  dydt[at.SPEED] = now.acceleration_mps2;
  dydt[at.RIM_SPEED] = now.rimAcceleration_mps2;
  dydt[at.RUN] = mode.train * speed_mps;
  batteryAndHeat(w, dydt, y, drag_Nm * motor_radps, motor_radps);
  mechanicalBooks(w, dydt, speed_mps, rim_mps, drag_Nm * motor_radps);
}

/** At rest: the brake takes as much of the motor's pull as there is. */
function stand(w: Working): void {
  const { train, now } = w;
  now.acceleration_mps2 = 0;
  now.rimAcceleration_mps2 = 0;
  now.rim_N = pullAtRest_N(w);
  now.contact_N = now.rim_N - Math.min(now.brakeRim_N, now.rim_N);
  if (train.transfer.end !== 0) shiftWhileGripping(w);
}

/** Wheels grip: rotor, gears and wheels move with the train. */
function roll(w: Working, resisting_N: number): void {
  const { train, mode, now } = w;
  const { meshes, translating_kg, transfer } = train;
  const shaft_N = now.shaft_N - mode.rim * now.brakeShaft_N;
  turn(meshes, shaft_N, resisting_N + mode.rim * brakeOnWheels_N(w), translating_kg, mode.rim, now);
  now.acceleration_mps2 = now.rimAcceleration_mps2;
  now.contact_N = translating_kg * now.acceleration_mps2 + resisting_N;
  if (transfer.end !== 0) shiftWhileGripping(w);
}

/** Wheels slide: the rail gives its sliding grip, to the train and against the rims. */
function slide(w: Working, resisting_N: number): void {
  const { train, mode, now } = w;
  if (train.transfer.end !== 0) shiftWhileSliding(w, resisting_N);
  now.contact_N = mode.wheels * now.slidingGrip_N;
  now.acceleration_mps2 = mode.train === 0 ? 0 : (now.contact_N - resisting_N) / train.translating_kg;
  if (mode.rim !== 0) {
    const shaft_N = now.shaft_N - mode.rim * now.brakeShaft_N;
    turn(train.meshes, shaft_N, now.contact_N + mode.rim * brakeOnWheels_N(w), 0, mode.rim, now);
  } else {
    now.rimAcceleration_mps2 = 0;
    now.rim_N = pullAtRest_N(w);
  }
}

/**
 * How a train that runs forwards would go on with power and brakes off, with what `motion` last left in `now`. A motor may
 * drag harder than the rail can turn its wheels: they slide.
 */
export function coasting_mps2({ train, now }: Working, speed_mps: number): number {
  const resisting_N = now.gravity_N + now.air_N + now.rolling_N + now.curves_N;
  turn(train.meshes, -motorDrag_N(train, speed_mps), resisting_N, train.translating_kg, 1, coasting);
  const contact_N = train.translating_kg * coasting.rimAcceleration_mps2 + resisting_N;
  if (contact_N >= -now.staticGrip_N) return coasting.rimAcceleration_mps2;
  return (-now.slidingGrip_N - resisting_N) / train.translating_kg;
}
const coasting = at.newInstant();

/** Gravity, curves and grip, from the height and the curvature under both ends of every vehicle. */
function lieOfTheLine(w: Working, head_m: number): void {
  const { train, track, now, heights_m, turns_rad, hints } = w;
  const { distance_m: d, height_m: h, turned_rad: b } = track;
  const ends = train.ends_m;
  const circuit = track.kind === "circuit";
  const lean_m = track.leaning === 0 ? 0 : h[h.length - 1] - h[0];
  for (let i = 0; i < ends.length; i++) {
    const along_m = head_m - ends[i];
    const laps = circuit ? Math.floor(along_m / track.length_m) : 0;
    const x = along_m - laps * track.length_m;
    const k = stretchAt(track, x, hints[i]);
    const share = (x - d[k]) / (d[k + 1] - d[k]);
    hints[i] = k;
    heights_m[i] = h[k] + share * (h[k + 1] - h[k]) + laps * lean_m;
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
  now.brakeShaft_N = 0;
  now.brakeAxles_N = 0;
  now.locked_N = 0;
  if (train.brakes.length === 0) return;
  axleBrake_N.fill(0);
  for (let i = 0; i < train.brakes.length; i++) {
    const brake = train.brakes[i];
    const share = appliedAt(train.brakes, application, i, time_s);
    now.brakeRim_N += share * brake.rim_N;
    now.brakeShaft_N += share * brake.shaft_N;
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

/** What brakes the driven wheels themselves. */
const brakeOnWheels_N = ({ train, now }: Working): number => now.brakeRim_N - now.brakeShaft_N / train.gears.efficiency;

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

  const terminal_W = now.terminal_V * current_A;
  dydt[at.DRAWN_CHARGE] = current_A;
  dydt[at.DRAWN] = Math.max(0, terminal_W);
  dydt[at.RETURNED] = Math.max(0, -terminal_W);
  dydt[at.BATTERY_SQUARE] = current_A * current_A;
  dydt[at.MOTOR_SQUARE] = now.motor_A * now.motor_A;
  dydt[at.RECOVERY] =
    flow === 0
      ? 0
      : flow * (lookUp(battery.rested, labelShare(battery, y[at.BOUND] / train.boundFull_C)) - now.rested_V);
  dydt[at.KNEE] = (now.rested_V - now.emf_V - battery.polarisation_ohm * y[at.POLARISATION]) * current_A;
  dydt[at.POLARISATION_LOSS] = battery.polarisation_ohm * y[at.POLARISATION] * y[at.POLARISATION];
  dydt[at.STANDING] = (current_A - now.duty * now.motor_A) * now.supply_V;
  const resisted = w.mode.braking && train.controller.electricBrake === "rheostatic";
  dydt[at.BRAKE_RESISTOR] = resisted ? -now.motor_V * now.motor_A : 0;
  dydt[at.COPPER] = copper_W;
  dydt[at.BRUSHES] = brush_W;
}

/** Where the work of every force goes; each a loss line of its own. */
function mechanicalBooks(w: Working, dydt: Float64Array, speed_mps: number, rim_mps: number, drag_W: number): void {
  const { train, mode, now } = w;
  dydt[at.MOTOR_DRAG] = drag_W;
  const intoMeshes_N = now.shaft_N - mode.rim * now.brakeShaft_N - train.beforeLastMesh_kg * now.rimAcceleration_mps2;
  dydt[at.GEARS] = (intoMeshes_N - now.rim_N) * rim_mps;
  dydt[at.SLIP] = now.contact_N * (rim_mps - speed_mps) + mode.train * now.locked_N * speed_mps;
  const onDriven_W = mode.rim * (brakeOnWheels_N(w) + now.brakeShaft_N) * rim_mps;
  dydt[at.BRAKES] = onDriven_W + mode.train * (now.brakeAxles_N - now.locked_N) * speed_mps;
  dydt[at.ROLLING] = now.rolling_N * speed_mps;
  dydt[at.CURVES] = mode.train * now.curves_N * speed_mps;
  dydt[at.AIR] = now.air_N * speed_mps;
}
