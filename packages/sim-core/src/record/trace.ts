import type { Observer } from "../loop/stepper.js";
import { motion } from "../motion.js";
import { onTheLine, stretchAt } from "../parts/track.js";
import * as at from "../state.js";
import { chainage_m, type Working } from "../working.js";

/** One row of the trace: SI, gradients in percent, laps count from 1. */
export interface TraceRow {
  time_s: number;
  lap: number;
  chainage_m: number;
  distance_m: number;
  speed_mps: number;
  wheel_speed_mps: number;
  acceleration_mps2: number;
  mode: "held" | "running" | "coasting" | "braking" | "slipping" | "rolling_back";
  lever: number;
  duty: number;
  /** What holds the motor current where it is; empty while the circuit is open. */
  limited_by: at.LimitedBy | "";
  motor_current_A: number;
  motor_voltage_V: number;
  motor_speed_rpm: number;
  battery_current_A: number;
  battery_voltage_V: number;
  state_of_charge: number;
  available_share: number;
  tractive_force_N: number;
  gradient_force_N: number;
  curve_force_N: number;
  rolling_force_N: number;
  air_force_N: number;
  brake_force_N: number;
  adhesion_used: number;
  winding_temperature_C: number;
  case_temperature_C: number;
  breaker_heating: number;
  height_m: number;
  gradient_percent: number;
  passengers: number;
}

/** State of charge as a share of the label, never below 0. */
export const stateOfCharge = (w: Pick<Working, "plan" | "train">, y: Float64Array): number =>
  Math.max(0, w.plan.charge - y[at.DRAWN_CHARGE] / w.train.battery.label_C);

/** Share of the static grip that the driven wheels use; lifted off the rail they use all there is, once they are asked. */
export const adhesionUsed = ({ now: { contact_N, staticGrip_N } }: Working): number =>
  staticGrip_N > 0 ? Math.abs(contact_N) / staticGrip_N : Math.abs(Math.sign(contact_N));

/** The row of a state that `w.now` was worked out from. */
export function traceRow(w: Working, time_s: number, y: Float64Array): TraceRow {
  const { train, track, now, mode } = w;
  const wheel_mps = mode.wheels === 0 ? y[at.SPEED] : y[at.RIM_SPEED];
  const head_m = onTheLine(track, y[at.POSITION]);
  const i = stretchAt(track, head_m, w.hints[0]);
  const { distance_m: d, height_m: h } = track;
  const sine = (h[i + 1] - h[i]) / (d[i + 1] - d[i]);
  return {
    time_s,
    lap: w.lapsDone + 1,
    chainage_m: track.kind === "circuit" ? head_m : chainage_m(w, y),
    distance_m: y[at.RUN],
    speed_mps: y[at.SPEED],
    wheel_speed_mps: wheel_mps,
    acceleration_mps2: now.acceleration_mps2,
    mode: modeInWords(w),
    lever: w.lever,
    duty: now.duty,
    limited_by: mode.powered ? (w.minding && now.limitedBy === "lever" ? "adhesion" : now.limitedBy) : "",
    motor_current_A: now.motor_A,
    motor_voltage_V: now.motor_V,
    motor_speed_rpm: (((wheel_mps * train.gears.ratio) / train.radius_m) * 30) / Math.PI,
    battery_current_A: now.battery_A,
    battery_voltage_V: now.terminal_V,
    state_of_charge: stateOfCharge(w, y),
    available_share: y[at.AVAILABLE] / train.availableFull_C,
    tractive_force_N: now.contact_N,
    gradient_force_N: now.gravity_N,
    curve_force_N: mode.train * now.curves_N,
    rolling_force_N: now.rolling_N,
    air_force_N: now.air_N,
    brake_force_N: mode.train * (now.brakeAxles_N + now.brakeRim_N),
    adhesion_used: adhesionUsed(w),
    winding_temperature_C: y[at.WINDING],
    case_temperature_C: y[at.CASE],
    breaker_heating: y[at.BREAKER],
    height_m: h[i] + sine * (head_m - d[i]),
    gradient_percent: 100 * sine,
    passengers: w.aboard,
  };
}

function modeInWords({ mode }: Working): TraceRow["mode"] {
  if (mode.wheels !== 0) return "slipping";
  if (mode.train === 0) return "held";
  if (mode.train < 0) return "rolling_back";
  if (mode.braking) return "braking";
  return mode.powered ? "running" : "coasting";
}

/**
 * Hands on a row every `every_s` and one at each event. Rows between steps are interpolated: sampling never changes a
 * step.
 */
export function tracer(every_s: number, onRow: (row: TraceRow) => void): Observer {
  const between = new Float64Array(at.SIZE);
  const scratch = new Float64Array(at.SIZE);
  let count = 0;
  let told_s = Number.NaN;
  return {
    step(w, from_s, from) {
      while (count * every_s <= w.time_s) {
        const time_s = count * every_s;
        count++;
        if (time_s === told_s) continue;
        const share = (time_s - from_s) / (w.time_s - from_s);
        if (share >= 1) {
          onRow(traceRow(w, time_s, w.y));
          continue;
        }
        for (let i = 0; i < between.length; i++) between[i] = from[i] + share * (w.y[i] - from[i]);
        motion(w, scratch, between, time_s);
        onRow(traceRow(w, time_s, between));
        motion(w, scratch, w.y, w.time_s);
      }
    },
    event(w) {
      told_s = w.time_s;
      onRow(traceRow(w, w.time_s, w.y));
    },
  };
}
