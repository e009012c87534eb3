import { between, lineOf } from "./oracle.line.js";

/**
 * The whole train written down a second time from its equations, in the plainest style and from the figures alone, for an
 * integrator of somebody else's. Nothing of the simulation is used here. Runs forwards, wheels gripping.
 */
export interface OracleTrain {
  vehicles: { kg: number; m: number; c0: number; c1: number; start: number; curve_m: number }[];
  rolling_extra_kg: number;
  /** What turns, as mass at the tread: rotor, layshaft, driven wheels. */
  turning_kg: readonly [number, number, number];
  dragArea_m2: number;
  radius_m: number;
  ratio: number;
  /** Of the chain to the layshaft, and of the one to the axle. */
  efficiency: readonly [number, number];
  motor: { k: number; R20: number; friction_Nm: number; alpha: number; brush_V: number; brushFull_A: number };
  heat: { Cw: number; Cc: number; Rwc: number; Rca: number };
  motorPath_ohm: number;
  source_ohm: number;
  battery_ohm: number;
  standing_A: number;
  motorLimit_A: number;
  batteryLimit_A: number;
  wells: { total_C: number; label_C: number; c: number; rate: number };
  rested: [number, number][];
  kneeFill: number;
  kneeFoot_V: number;
  polarisation: { R1: number; tau: number };
  air_degC: number;
  /** Posts of a circuit: distance, height, radius from there on. */
  posts: (readonly [number, number, number?])[];
}

export interface OracleState {
  s: number;
  v: number;
  y1: number;
  y2: number;
  i1: number;
  Tw: number;
  Tc: number;
  charge_C: number;
  energy_J: number;
}

const G = 9.80665;
const RHO = 1.225;

export function oracle(t: OracleTrain) {
  const { height, turned } = lineOf(t.posts);
  const mass_kg = t.vehicles.reduce((sum, vehicle) => sum + vehicle.kg, 0);
  const translating_kg = mass_kg + t.rolling_extra_kg;
  const [rotor_kg, layshaft_kg, wheels_kg] = t.turning_kg;
  const [eta1, eta2] = t.efficiency;

  function line(s: number) {
    let grade_N = 0;
    let curve_N = 0;
    let front = s;
    for (const { kg, m, curve_m } of t.vehicles) {
      grade_N += (kg * G * (height(front) - height(front - m))) / m;
      curve_N += (kg * G * curve_m * (turned(front) - turned(front - m))) / m;
      front -= m;
    }
    return { grade_N, curve_N };
  }

  const rolling = (v: number) => t.vehicles.reduce((sum, { kg, c0, c1 }) => sum + kg * G * (c0 + c1 * v), 0);
  const starting_N = t.vehicles.reduce((sum, { kg, start }) => sum + kg * G * start, 0);
  const air = (v: number) => 0.5 * RHO * t.dragArea_m2 * v * v;
  const shaft = (v: number) => (v * t.ratio) / t.radius_m;
  const brush = (I: number) => t.motor.brush_V * Math.min(I / t.motor.brushFull_A, 1);

  /** What hangs on the state alone: motor constants as warm as they are, and the battery's e.m.f. */
  function circumstances(state: OracleState) {
    const k = t.motor.k * (1 + t.motor.alpha * (state.Tc - 20));
    const winding_ohm = t.motor.R20 * (1 + 0.00393 * (state.Tw - 20));
    // Volts stand against the label's charge: level wells have lost (1 - fill) of their total, which the label counts.
    const fill = state.y1 / (t.wells.c * t.wells.total_C);
    const restedAt_V = (full: number) => between(t.rested, 1 - ((1 - full) * t.wells.total_C) / t.wells.label_C);
    const rested_V =
      fill >= t.kneeFill
        ? restedAt_V(fill)
        : t.kneeFoot_V + ((restedAt_V(t.kneeFill) - t.kneeFoot_V) * fill) / t.kneeFill;
    const E = rested_V - t.polarisation.R1 * state.i1;
    return { k, winding_ohm, E };
  }

  /** Motor current and duty at a lever, by D (E - Rs (D I + Iaux)) = k ω + I R + Vbrush and the two current limits. */
  function currents(state: OracleState, lever: number) {
    const { k, winding_ohm, E } = circumstances(state);
    const R = winding_ohm + t.motorPath_ohm;
    const w = shaft(state.v);
    const open_V = E - t.source_ohm * t.standing_A;
    let D = lever;
    const excess_V = D * open_V - k * w;
    const low = excess_V / (R + D * D * t.source_ohm + t.motor.brush_V / t.motor.brushFull_A);
    const high = (excess_V - t.motor.brush_V) / (R + D * D * t.source_ohm);
    let I = Math.max(0, low <= t.motor.brushFull_A ? low : high);
    if (I > t.motorLimit_A) {
      I = t.motorLimit_A;
      D = dutyFor(k * w + I * R + brush(I), I, open_V);
    }
    if (D * I > t.batteryLimit_A) {
      const power_W = t.batteryLimit_A * (open_V - t.source_ohm * t.batteryLimit_A);
      const b = k * w + t.motor.brush_V;
      I = (-b + Math.sqrt(b * b + 4 * R * power_W)) / (2 * R);
      D = t.batteryLimit_A / I;
    }
    return { I, D };
  }

  function dutyFor(volts: number, I: number, open_V: number) {
    return (open_V - Math.sqrt(open_V * open_V - 4 * t.source_ohm * I * volts)) / (2 * t.source_ohm * I);
  }

  /** Force of the motor as seen at the tread, its friction taken off. */
  const shaft_N = (state: OracleState, lever: number) =>
    ((circumstances(state).k * currents(state, lever).I - t.motor.friction_Nm) * t.ratio) / t.radius_m;

  /** What comes to the wheels while nothing speeds up. */
  function pull_N(state: OracleState, lever: number) {
    const force_N = shaft_N(state, lever);
    return force_N >= 0 ? force_N * eta1 * eta2 : force_N / (eta1 * eta2);
  }

  /**
   * How a force at the motor's shaft speeds up the train against a resistance: of the four ways in which the two chains can
   * drive or be driven, the one whose own answer has them so. Free bodies: rotor, layshaft, wheels with the train.
   */
  function acceleration(force_N: number, against_N: number) {
    for (const first of [eta1, 1 / eta1]) {
      for (const second of [eta2, 1 / eta2]) {
        const inertia_kg = first * second * rotor_kg + second * layshaft_kg + wheels_kg + translating_kg;
        const a = (first * second * force_N - against_N) / inertia_kg;
        const intoFirst_N = force_N - rotor_kg * a;
        const intoSecond_N = first * intoFirst_N - layshaft_kg * a;
        const asDriven = (into_N: number, way: number) => (into_N >= 0 ? way <= 1 : way >= 1);
        if (asDriven(intoFirst_N, first) && asDriven(intoSecond_N, second)) return a;
      }
    }
    throw new Error(`no way of driving for ${force_N} N against ${against_N} N`);
  }

  /** The lever for a force of the rail at an acceleration, never quite shut while the motor is to pull at all. */
  function leverFor(state: OracleState, contact_N: number, a: number) {
    const { k, winding_ohm, E } = circumstances(state);
    const behind = (out_N: number, eta: number) => (out_N >= 0 ? out_N / eta : out_N * eta);
    const second_N = behind(contact_N + wheels_kg * a, eta2);
    const first_N = behind(second_N + layshaft_kg * a, eta1);
    const torque_Nm = ((first_N + rotor_kg * a) * t.radius_m) / t.ratio + t.motor.friction_Nm;
    if (torque_Nm <= 0) return 0;
    const I = torque_Nm / k;
    const volts = k * shaft(state.v) + I * (winding_ohm + t.motorPath_ohm) + brush(I);
    return Math.min(Math.max(dutyFor(volts, I, E - t.source_ohm * t.standing_A), 1e-3), 1);
  }

  /** All rates at a state, running forwards. */
  function rates(state: OracleState, lever: number): OracleState {
    const { winding_ohm, E } = circumstances(state);
    const { I, D } = currents(state, lever);
    const { grade_N, curve_N } = line(state.s);
    const Ib = D * I + t.standing_A;
    const { c, rate } = t.wells;
    const flow = rate * (c * state.y2 - (1 - c) * state.y1);
    const { Cw, Cc, Rwc, Rca } = t.heat;
    const over_W = (state.Tw - state.Tc) / Rwc;
    return {
      s: state.v,
      v: acceleration(shaft_N(state, lever), grade_N + curve_N + rolling(state.v) + air(state.v)),
      y1: flow - Ib,
      y2: -flow,
      i1: (Ib - state.i1) / t.polarisation.tau,
      Tw: (I * I * winding_ohm + brush(I) * I - over_W) / Cw,
      Tc: (over_W + t.motor.friction_Nm * shaft(state.v) - (state.Tc - t.air_degC) / Rca) / Cc,
      charge_C: Ib,
      energy_J: (E - t.battery_ohm * Ib) * Ib,
    };
  }

  return { translating_kg, starting_N, line, rolling, air, pull_N, leverFor, rates };
}
