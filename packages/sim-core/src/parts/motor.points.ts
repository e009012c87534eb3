import { summit } from "../numeric/maximum.js";
import { root } from "../numeric/roots.js";
import { interpolate } from "../numeric/tables.js";
import { COPPER_pK } from "./constants.js";
import type { Motor } from "./motor.js";

/** What a motor does at a voltage and a current, steadily. */
export interface MotorPoint {
  current_A: number;
  speed_radps: number;
  /** At the shaft, drag taken off. */
  torque_Nm: number;
  power_W: number;
  /** Shaft power over electrical power. */
  efficiency: number;
}

export const motorResistance_ohm = (m: Motor, winding_degC: number): number =>
  m.resistance20_ohm * (1 + COPPER_pK * (winding_degC - 20));

/** Flux of magnets as warm as the case, over that at 20 °C. */
export const fluxFactor = (m: Motor, case_degC: number): number => 1 + m.fluxPerKelvin_pK * (case_degC - 20);

/** Torque per amp before drag, which is also volts per rad/s. */
export const motorFlux_NmpA = (m: Motor, current_A: number, case_degC: number): number =>
  interpolate(m.current_A, m.flux_NmpA, current_A) * fluxFactor(m, case_degC);

export const motorBrush_V = (m: Motor, current_A: number): number => interpolate(m.current_A, m.brush_V, current_A);

/** The steady working point at a terminal voltage and a current above 0, turning forwards. */
export function motorPoint(
  m: Motor,
  voltage_V: number,
  current_A: number,
  winding_degC = 20,
  case_degC = 20,
): MotorPoint {
  const flux_NmpA = motorFlux_NmpA(m, current_A, case_degC);
  const lost_V = motorResistance_ohm(m, winding_degC) * current_A + motorBrush_V(m, current_A);
  const speed_radps = (voltage_V - lost_V) / flux_NmpA;
  const torque_Nm = flux_NmpA * current_A - m.drag_Nm - m.dragPerSpeed_Nms * speed_radps;
  const power_W = torque_Nm * speed_radps;
  return { current_A, speed_radps, torque_Nm, power_W, efficiency: power_W / (voltage_V * current_A) };
}

/** Current with the shaft held: that at which winding and brushes take all the volts. */
export function stallCurrent_A(m: Motor, voltage_V: number, winding_degC = 20): number {
  const resistance_ohm = motorResistance_ohm(m, winding_degC);
  let from_A = 0;
  let left_V = voltage_V;
  for (let i = 1; i < m.current_A.length; i++) {
    const atKnot_V = voltage_V - resistance_ohm * m.current_A[i] - m.brush_V[i];
    if (atKnot_V <= 0) return from_A + ((m.current_A[i] - from_A) * left_V) / (left_V - atKnot_V);
    from_A = m.current_A[i];
    left_V = atKnot_V;
  }
  return from_A + left_V / resistance_ohm;
}

/** Torque at the shaft when it begins to turn. */
export const stallTorque_Nm = (m: Motor, voltage_V: number, winding_degC = 20, case_degC = 20): number => {
  const current_A = stallCurrent_A(m, voltage_V, winding_degC);
  return motorFlux_NmpA(m, current_A, case_degC) * current_A - m.drag_Nm;
};

/** Or is what it turns against the load's alone? Figures of a series motor never tell its drag. */
export const hasDrag = (m: Motor): boolean => m.drag_Nm > 0 || m.dragPerSpeed_Nms > 0;

/**
 * Speed turning free, where current only covers the drag. A series motor without drag has none: Infinity. 0 where the
 * voltage does not turn it against its own drag.
 */
export function noLoadSpeed_radps(m: Motor, voltage_V: number): number {
  if (!hasDrag(m)) return voltage_V / m.flux_NmpA[0];
  if (stallTorque_Nm(m, voltage_V) <= 0) return 0;
  const left_Nm = (current_A: number) => {
    const { speed_radps, torque_Nm } = motorPoint(m, voltage_V, current_A);
    // A series motor has no flux at 0 A and would turn infinitely fast there.
    return Number.isFinite(speed_radps) ? torque_Nm : -Infinity;
  };
  return motorPoint(m, voltage_V, root(left_Nm, 0, stallCurrent_A(m, voltage_V))).speed_radps;
}

/** Where most of the electrical power reaches the shaft. */
export const peakEfficiency = (m: Motor, voltage_V: number): MotorPoint => {
  const at = (current_A: number) => motorPoint(m, voltage_V, current_A);
  return at(summit((i) => at(i).efficiency, 0, stallCurrent_A(m, voltage_V)));
};

/** Where the shaft gives most power, at about half the stall current. */
export const peakPower = (m: Motor, voltage_V: number): MotorPoint => {
  const at = (current_A: number) => motorPoint(m, voltage_V, current_A);
  return at(summit((i) => at(i).power_W, 0, stallCurrent_A(m, voltage_V)));
};

/**
 * The steepest fall of torque with speed at steady volts, times the resistance: k (k + I dk/dI), met at standstill. k² for
 * a permanent magnet, twice that at the top of a series motor's straight rise of flux.
 */
export function steepest_Nm2pA2({ current_A, flux_NmpA }: Motor): number {
  let most = flux_NmpA[flux_NmpA.length - 1] ** 2;
  for (let i = 1; i < current_A.length; i++) {
    const rise = (flux_NmpA[i] - flux_NmpA[i - 1]) / (current_A[i] - current_A[i - 1]);
    most = Math.max(most, flux_NmpA[i] * (flux_NmpA[i] + rise * current_A[i]));
  }
  return most;
}

/** Losses at the rating, for the rule that works out how the motor warms; NaN where the rating is unknown. */
export const ratedLosses = (m: Motor) => ({
  known: m.ratingKnown,
  current_A: m.rated.current_A,
  power_W: m.rated.power_W,
  speed_radps: m.rated.speed_radps,
  resistance20_ohm: m.resistance20_ohm,
  brush_V: motorBrush_V(m, m.rated.current_A),
  drag_W: (m.drag_Nm + m.dragPerSpeed_Nms * m.rated.speed_radps) * m.rated.speed_radps,
  count: m.count,
  paths: m.paths,
});
