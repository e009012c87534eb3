import type { Motor } from "../parts/motor.js";

/**
 * A series motor turned backwards under power. Its own current makes the flux that drives it, and its brushes ask for some
 * volts before they pass any. Where a nearly shut lever gives fewer than that there can be two steady currents at one
 * speed: next to none, the brushes standing in the way, and a great one, the motor exciting itself. It keeps the one it has
 * until that one is gone: which of them is a mode, and the change an event.
 */
export interface Excitation {
  motor_A: number;
  /** Volts to go until the other current takes over. */
  excitation_V: number;
}

/** Volts left over at a knot, which drive the current further up. */
const left_V = (m: Motor, knot: number, motor_radps: number, total_ohm: number, open_V: number): number =>
  open_V - m.flux_NmpA[knot] * motor_radps - m.brush_V[knot] - total_ohm * m.current_A[knot];

/** The current between two knots at which nothing is left over: from knot to knot that falls or rises straight. */
const between_A = ({ current_A }: Motor, knot: number, here_V: number, next_V: number): number =>
  current_A[knot] + ((current_A[knot + 1] - current_A[knot]) * here_V) / (here_V - next_V);

/** The steady current on its side of the knot where the brushes have their full drop, and how far it is from changing sides. */
export function excite(
  m: Motor,
  excited: boolean,
  motor_radps: number,
  total_ohm: number,
  open_V: number,
  found: Excitation,
): void {
  let knee = 0;
  while (m.brush_V[knee] < m.brush_V[m.brush_V.length - 1]) knee++;
  if (excited) above(m, knee, motor_radps, total_ohm, open_V, found);
  else below(m, knee, motor_radps, total_ohm, open_V, found);
}

/** Not excited: the first current there is, as long as the brushes stop it before their full drop. */
function below(
  m: Motor,
  knee: number,
  motor_radps: number,
  total_ohm: number,
  open_V: number,
  found: Excitation,
): void {
  found.motor_A = m.current_A[knee];
  found.excitation_V = 0 - left_V(m, knee, motor_radps, total_ohm, open_V);
  let here_V = left_V(m, 0, motor_radps, total_ohm, open_V);
  for (let i = 0; i < knee; i++) {
    const next_V = left_V(m, i + 1, motor_radps, total_ohm, open_V);
    if (next_V < 0) {
      found.motor_A = between_A(m, i, here_V, next_V);
      return;
    }
    here_V = next_V;
  }
}

/** Excited: the last current there is, as long as anything is left over at some knot below it. */
function above(
  m: Motor,
  knee: number,
  motor_radps: number,
  total_ohm: number,
  open_V: number,
  found: Excitation,
): void {
  const last = m.current_A.length - 1;
  let next_V = left_V(m, last, motor_radps, total_ohm, open_V);
  let most_V = next_V;
  found.motor_A = m.current_A[last] + Math.max(0, next_V) / total_ohm;
  for (let i = last - 1; i >= knee; i--) {
    const here_V = left_V(m, i, motor_radps, total_ohm, open_V);
    if (most_V < 0 && here_V >= 0) found.motor_A = between_A(m, i, here_V, next_V);
    else if (most_V < 0 && here_V > most_V) found.motor_A = m.current_A[i];
    most_V = Math.max(most_V, here_V);
    next_V = here_V;
  }
  found.excitation_V = most_V;
}
