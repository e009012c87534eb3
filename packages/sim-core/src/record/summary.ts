import type { Observer } from "../loop/stepper.js";
import { MARGINS, type MarginName } from "../margins.js";
import * as at from "../state.js";
import { chainage_m, type Working } from "../working.js";
import { adhesionUsed } from "./trace.js";

/** The least a margin came to, and where: how near it was to something happening. */
export interface LeastMargin {
  value: number;
  time_s: number;
  chainage_m: number;
}

/** Extremes of a working. */
export interface Summary {
  top_speed_mps: number;
  peak_motor_current_A: number;
  peak_battery_current_A: number;
  /** Root mean square over the worst minute; over all of it where it is shorter. */
  minute_motor_current_A: number;
  minute_battery_current_A: number;
  lowest_battery_voltage_V: number;
  peak_winding_temperature_C: number;
  over_temperature_at_s: number | null;
  peak_adhesion_used: number;
  least_margins: Partial<Record<MarginName, LeastMargin>>;
}

/** Margins that tell how near trouble was; the others only steer the run. */
const TELLING: readonly MarginName[] = [
  "grip_N",
  "cutout_V",
  "empty_C",
  "breaker_heating",
  "breaker_magnetic_A",
  "switch_breaks_A",
  "protection_current_A",
  "protection_low_V",
  "winding_degC",
];

const GRIP = TELLING.indexOf("grip_N");
const SWITCH_BREAKS = TELLING.indexOf("switch_breaks_A");

/** Looks on at a working and keeps its extremes. */
export function summariser(): { observer: Observer; summary: Summary } {
  const summary: Summary = {
    top_speed_mps: 0,
    peak_motor_current_A: 0,
    peak_battery_current_A: 0,
    minute_motor_current_A: 0,
    minute_battery_current_A: 0,
    lowest_battery_voltage_V: Number.POSITIVE_INFINITY,
    peak_winding_temperature_C: Number.NEGATIVE_INFINITY,
    over_temperature_at_s: null,
    peak_adhesion_used: 0,
    least_margins: {},
  };
  const minutes = minuteOf();
  const telling = TELLING.map((name) => MARGINS.indexOf(name));
  const least = telling.map(() => ({ value: Number.POSITIVE_INFINITY, time_s: 0, chainage_m: 0 }));
  const look = (w: Working, margins: Float64Array) => {
    const { now, y } = w;
    minutes(w, summary);
    summary.top_speed_mps = Math.max(summary.top_speed_mps, y[at.SPEED]);
    summary.peak_motor_current_A = Math.max(summary.peak_motor_current_A, now.motor_A);
    summary.peak_battery_current_A = Math.max(summary.peak_battery_current_A, now.battery_A);
    summary.lowest_battery_voltage_V = Math.min(summary.lowest_battery_voltage_V, now.terminal_V);
    summary.peak_winding_temperature_C = Math.max(summary.peak_winding_temperature_C, y[at.WINDING]);
    summary.peak_adhesion_used = Math.max(summary.peak_adhesion_used, adhesionUsed(w));
    if (w.tooHot && summary.over_temperature_at_s === null) summary.over_temperature_at_s = w.time_s;
    for (let i = 0; i < telling.length; i++) keep(w, i, margins[telling[i]]);
  };
  const keep = (w: Working, i: number, value: number) => {
    if (value >= least[i].value) return;
    least[i].value = value;
    least[i].time_s = w.time_s;
    least[i].chainage_m = chainage_m(w);
    summary.least_margins[TELLING[i]] = least[i];
  };
  const observer: Observer = {
    step: (w, _from_s, _from, margins) => look(w, margins),
    change: look,
    event(w) {
      // A move of the lever passes it with no step that leads up to it, and then the next switch is looked at.
      if (w.switchesPassed > 0) keep(w, SWITCH_BREAKS, 0);
      if (w.mode.wheels === 0) return;
      // A slip that begins with a move of the lever has no step that leads up to it: all the grip there was is used.
      keep(w, GRIP, 0);
      summary.peak_adhesion_used = Math.max(summary.peak_adhesion_used, 1);
    },
  };
  return { observer, summary };
}

/** Sums of squares are kept so often, and for longer than a minute. */
const KEPT_EVERY_s = 0.5;
const MINUTE_s = 60;
const KEPT = 256;

/** Keeps the greatest root mean square of a minute, which begins on one of the times that are kept. */
function minuteOf(): (w: Working, summary: Summary) => void {
  const [times_s, motor_A2s, battery_A2s] = [0, 1, 2].map(() => new Float64Array(KEPT));
  // The first is the start, at 0 with nothing run; `oldest` is the last of those that are a minute old.
  let [newest, oldest] = [0, 0];
  return ({ time_s, y }, summary) => {
    const at_s = times_s[newest % KEPT];
    if (time_s < at_s + KEPT_EVERY_s) return;
    newest++;
    times_s[newest % KEPT] = time_s;
    motor_A2s[newest % KEPT] = y[at.MOTOR_SQUARE];
    battery_A2s[newest % KEPT] = y[at.BATTERY_SQUARE];
    while (times_s[(oldest + 1) % KEPT] <= time_s - MINUTE_s) oldest++;
    const over_s = time_s - times_s[oldest % KEPT];
    const rms = (squares: Float64Array) =>
      Math.sqrt(Math.max(0, squares[newest % KEPT] - squares[oldest % KEPT]) / over_s);
    // Before a minute is over, what was run so far counts as a whole one would: at the end it may be all there is.
    const whole = over_s >= MINUTE_s;
    summary.minute_motor_current_A = whole ? Math.max(summary.minute_motor_current_A, rms(motor_A2s)) : rms(motor_A2s);
    summary.minute_battery_current_A = whole
      ? Math.max(summary.minute_battery_current_A, rms(battery_A2s))
      : rms(battery_A2s);
  };
}
