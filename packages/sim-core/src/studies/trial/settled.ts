import { currentForTorque } from "../../drive/circuit.js";
import { balancingSpeed_mps, CREEP_mps, FASTEST_mps } from "../../drive/climbing.js";
import { slowedBy_pkg } from "../../drive/meshes.js";
import { type Conditions, gravity_N, grip_N, motorDrag_N, pullAt, wellShare } from "../../drive/pull.js";
import { root } from "../../numeric/roots.js";
import { lookUp } from "../../numeric/tables.js";
import { fluxFactor } from "../../parts/motor.points.js";
import { airAt_N } from "../../train/rolling.js";
import type { Train } from "../../train/train.js";
import type { Machine } from "./machine.js";

/** What the meters read while nothing changes, and the force and speed that go with it. */
export interface Settled {
  /** Of the train; 0 where it stands. */
  speed_mps: number;
  /** That the rail gets. */
  force_N: number;
  motor_A: number;
  battery_A: number;
  /** At the battery's own terminals, at the controller's input, at the motor's terminals. */
  battery_V: number;
  controller_V: number;
  motor_V: number;
  /** At the controller's terminals for the motor. */
  output_V: number;
}

/** A cool machine. */
const conditions = (m: Machine, train: Train): Conditions => ({
  charge: wellShare(train, m.charge),
  winding_degC: m.air_degC,
  case_degC: m.air_degC,
});

/** Rested volts of the whole battery, which stand against the charge by the label. */
export const rested_V = (m: Machine): number => lookUp(m.train.battery.rested, m.charge);

/** The drive at a speed of the driven rims. */
export function driveAt(m: Machine, train: Train, rims_mps: number, lever: number): Settled {
  if (m.open || isCutOut(m)) return opened(m, train, lever);
  const pull = pullAt(train, conditions(m, train), rims_mps, Math.min(Math.max(lever, 0), 1));
  const controller_V = pull.terminal_V - train.batteryCable_ohm * pull.battery_A;
  return {
    speed_mps: rims_mps,
    force_N: pull.rim_N,
    motor_A: pull.motor_A,
    battery_A: pull.battery_A,
    battery_V: pull.terminal_V,
    controller_V,
    motor_V: pull.duty * controller_V - train.motorPath_ohm * pull.motor_A,
    output_V: pull.duty * controller_V - train.controller.on_ohm * pull.motor_A,
  };
}

/** Is the cut-out above the rested volts, set so or by what the battery has left? The controller then gives nothing. */
export const isCutOut = (m: Machine): boolean => m.cutsOut === "at_rest" || rested_V(m) < m.train.controller.cutout_V;

/** No current can flow to the motor: its circuit is open, all of it is, or the controller keeps shut. */
function opened(m: Machine, train: Train, lever: number): Settled {
  const live = m.open !== "battery";
  const rest_V = rested_V(m);
  const current_A = live ? train.standing_A : 0;
  const controller_V = live ? rest_V - train.source_ohm * current_A : 0;
  const gives = m.open === "motor" || m.open === "brushes";
  const output_V = gives ? controller_V * (lever + (1 - lever) * m.openShows) : 0;
  return {
    ...{ speed_mps: 0, force_N: 0, motor_A: 0, battery_A: current_A, controller_V, output_V },
    battery_V: rest_V - train.battery.resistance_ohm * current_A,
    motor_V: m.open === "brushes" ? output_V : 0,
  };
}

/** What wheels that cannot turn hold on the rail before they slide, and what they hold sliding, N. */
export const gripHolds_N = (train: Train): number => train.adhesion.static * train.driven_N;
export const gripSlides_N = (train: Train): number => train.adhesion.sliding * train.driven_N;

/** What a standing drive would give at the rims if nothing let go. */
export const ungripped_N = (m: Machine, train: Train, lever: number): number => driveAt(m, train, 0, lever).force_N;

/** Standing, the lever open: the rims are held by the rail, or slip in the sprockets or on the rail. */
export function standing(m: Machine, train: Train, sine: number, lever: number): Settled {
  const held = driveAt(m, train, 0, lever);
  const gripped_N = grip_N(train, sine);
  const passed_N = Math.min(gripped_N, m.sprockets_N);
  if (held.force_N <= passed_N) return held;
  const wheels = gripped_N <= m.sprockets_N;
  const force_N = wheels ? (gripped_N * train.adhesion.sliding) / train.adhesion.static : passed_N;
  return { ...driveAt(m, train, rimsGiving_mps(m, train, lever, force_N), lever), speed_mps: 0, force_N };
}

/** How fast the rims turn where the drive gives a force and no more. */
function rimsGiving_mps(m: Machine, train: Train, lever: number, force_N: number): number {
  const over_N = (rims_mps: number) => driveAt(m, train, rims_mps, lever).force_N - force_N;
  return over_N(FASTEST_mps) > 0 ? FASTEST_mps : root(over_N, 0, FASTEST_mps);
}

/** Standing, the lever opened as far as `lever`, or until something is about to slip. */
export function gripping(m: Machine, train: Train, sine: number, lever: number): Settled {
  const held = driveAt(m, train, 0, lever);
  const passed_N = Math.min(grip_N(train, sine), m.sprockets_N);
  if (held.force_N <= passed_N) return held;
  const over_N = (part: number) => driveAt(m, train, 0, part).force_N - passed_N;
  return driveAt(m, train, 0, root(over_N, 0, lever, 1e-9));
}

/** Along a gradient with the lever open: the speed it settles at, or as it stands where it does not move. */
export function running(m: Machine, train: Train, sine: number, lever: number): Settled {
  const opens = standing(m, train, sine, lever);
  // Spinning wheels draw far more than a start does: only a cut-out that is set to act shuts that off.
  const start = m.cutsOut === "running" ? shutOff(m, opens, train, lever) : opens;
  const stands = m.blocked || m.open || start.force_N <= neededToStart_N(m, train, sine);
  const passed_N = Math.min(grip_N(train, sine), m.sprockets_N);
  const speed_mps = stands
    ? 0
    : balancingSpeed_mps(train, conditions(m, train), sine, Math.min(lever, 1), passed_N, m.wind_mps);
  return speed_mps > 0 ? shutOff(m, driveAt(m, train, speed_mps, lever), train, lever) : { ...start, speed_mps: 0 };
}

/** A controller that cuts out on the level has shut off by the time the meters are read, and the train stands. */
function shutOff(m: Machine, settled: Settled, train: Train, lever: number): Settled {
  const cuts = m.cutsOut === "running" || settled.controller_V < train.controller.cutout_V;
  return cuts && settled.motor_A > 0 ? opened({ ...m, open: "control" }, train, lever) : settled;
}

/** What holds a standing train on a gradient, wind and all, N. */
export const neededToStart_N = (m: Machine, train: Train, sine: number): number =>
  train.breakaway_N + gravity_N(train, sine) + airAt_N(train, m.wind_mps);

/** Wheels off the rail: the speed at which the drive's own drag takes all the torque. */
export function onStands(m: Machine, lever: number): Settled {
  const turns = driveAt(m, m.light, CREEP_mps, lever).force_N > 0;
  return driveAt(m, m.light, turns ? rimsGiving_mps(m, m.light, lever, 0) : 0, lever);
}

/**
 * Motor current as the train just begins to move on a gradient; null where it does not.
 * @param hardest with the lever opened until it is full or something slips
 */
export function startingCurrent_A(m: Machine, train: Train, sine: number, hardest: Settled): number | null {
  const { motor, gears, radius_m } = train;
  const needed_N = Math.max(0, neededToStart_N(m, train, sine));
  // The lever is opened slowly: it has started before anything slips.
  const most = shutOff(m, hardest, train, 1);
  if (m.blocked || most.force_N <= needed_N) return null;
  const airGap_Nm = (needed_N * radius_m) / (gears.ratio * gears.efficiency) + motor.drag_Nm;
  return currentForTorque(motor, fluxFactor(motor, m.air_degC), airGap_Nm);
}

/**
 * How long the wheels run on, off the rail, from a speed of the rims: against a drag that is part constant and part
 * grows with speed, m dv/dt = -(a + b v), so t = (m/b) ln(1 + b v/a). The wheels drive the motor then, and the meshes
 * take their loss of that. Null where nothing stops them.
 */
export function runDown_s(train: Train, rims_mps: number): number | null {
  const constant_N = motorDrag_N(train, 0);
  if (constant_N === 0) return null;
  const gain = motorDrag_N(train, rims_mps) / constant_N - 1;
  return (rims_mps / (slowedBy_pkg(train.meshes, 0) * constant_N)) * (gain > 1e-9 ? Math.log1p(gain) / gain : 1);
}
