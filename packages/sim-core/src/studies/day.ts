import { drive } from "../driver/driver.js";
import type { EndedBy, Outcome } from "../event.js";
import type { Observer } from "../loop/stepper.js";
import { wellsAfter_C } from "../parts/battery.wells.js";
import { imageRate_ps } from "../parts/breaker.js";
import { caseRate_Kps, coolingShare, windingRate_Kps } from "../parts/heat.nodes.js";
import { motorResistance_ohm } from "../parts/motor.points.js";
import { reopenBooks } from "../record/balance.js";
import { mustClose, sound } from "../record/sound.js";
import { run } from "../run.js";
import * as at from "../state.js";
import type { Plan } from "../train/plan.js";
import { breakOff, chainage_m, end, type Working } from "../working.js";
import type { LapRow } from "./laps.js";

/** A day of laps until the charge falls to the reserve, or something ends it before. */
export interface Day {
  /** Whole laps done with no less than the reserve left. */
  laps_to_reserve: number;
  laps: number;
  /** Null where the reserve was reached. */
  ended_by: EndedBy | null;
  /** What the train came to: `completed` where the reserve was reached, or the plan's hours. */
  outcome: Outcome;
  ended_at_m: number;
  time_s: number;
  /** Drawn less returned. */
  charge_C: number;
  energy_J: number;
  /** Hottest that the winding was. */
  winding_degC: number;
  /** Laps that were not run but told from those beside them. */
  leapt: number;
  /** Those that were run, in order. */
  rows: LapRow[];
}

/** What a lap took. */
interface Lap {
  readonly time_s: number;
  readonly charge_C: number;
  readonly energy_J: number;
  readonly square_A2s: number;
  readonly copper_J: number;
  readonly brushes_J: number;
  readonly drag_J: number;
  readonly distance_m: number;
  readonly winding_degC: number;
}

/** Fewer are run. */
const LEAST_LEAP = 2;
/** Of what is left to the reserve, the shares that the leaps cover; the last laps are run. */
const SHARES = [0.25, 0.5, 1];
/** Where many days are wanted for their spread, and none for itself. */
const AT_ONCE = [1];
const RUN_AT_THE_END = 2;
/** Slow rates are followed in steps of this across a leap, s. */
const SLOW_s = 5;
const ONE_DAY_s = 86400;

/**
 * The day of `laps`, without running every lap: a lap is run here and there, and between two of these the wells, the
 * motor's heat and the breaker follow their own equations under the means of the lap before (averaging of two time scales);
 * the difference that the lap after shows is then made up by halves, as a trapezium does. It is within a lap of the whole
 * day. Where something ends the day close behind a leap, or in it, every lap is run.
 * @param coarse in one leap: a lap or two off
 * @throws RunError
 */
export function dayOf(plan: Plan, { coarse = false } = {}): Day {
  const quick = follow(plan, coarse ? AT_ONCE : SHARES);
  return sound(quick ?? (follow(plan, []) as Day));
}

function follow(plan: Plan, shares: readonly number[]): Day | null {
  const { reserve } = plan.train.battery;
  const sums = { time_s: 0, charge_C: 0, energy_J: 0, laps: 0, leapt: 0, toReserve: 0 };
  let hottest_degC = plan.air_degC;
  let before: { lap: Lap; leapt: number } | undefined;
  let [begun, done, taken, since, lost] = [0, 0, 0, 0, false];
  const rows: LapRow[] = [];
  let [lowest_V, lap_degC] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const look = ({ now, y }: Working) => {
    if (now.terminal_V < lowest_V) lowest_V = now.terminal_V;
    if (y[at.WINDING] > lap_degC) lap_degC = y[at.WINDING];
  };
  const observer: Observer = { step: look, change: look, event() {} };
  const close = (w: Working): Lap => {
    const lap = lapOf(w, begun);
    sums.time_s += lap.time_s;
    sums.charge_C += lap.charge_C;
    sums.energy_J += lap.energy_J;
    mustClose(w, false);
    return lap;
  };
  const onLap = (w: Working) => {
    const lap = close(w);
    sums.laps++;
    since++;
    if (before) {
      makeUp(w, sums, before, lap);
      before = undefined;
    }
    const charge = plan.charge - sums.charge_C / w.train.battery.label_C;
    rows.push({
      lap: sums.laps,
      time_s: lap.time_s,
      energy_Wh: lap.energy_J / 3600,
      charge_Ah: lap.charge_C / 3600,
      state_of_charge: Math.max(0, charge),
      lowest_battery_voltage_V: lowest_V,
      peak_winding_temperature_C: lap_degC,
    });
    hottest_degC = Math.max(hottest_degC, lap_degC);
    [lowest_V, lap_degC] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    if (charge < reserve) return breakOff(w, "completed");
    sums.toReserve++;
    // The run's own clock knows nothing of what was leapt.
    if (sums.time_s >= ONE_DAY_s) return end(w, { kind: "completed", by: "one_day" });
    if (sums.laps < 2 || taken === shares.length) return;
    const drop = lap.charge_C / w.train.battery.label_C;
    const left_s = Math.min(w.due_s.duration - w.time_s, ONE_DAY_s - sums.time_s);
    const room = Math.min(drop > 0 ? (charge - reserve) / drop : Number.POSITIVE_INFINITY, left_s / lap.time_s);
    const leapt = Math.floor(shares[taken] * (Math.floor(room) - RUN_AT_THE_END));
    if (!(leapt >= LEAST_LEAP)) return;
    taken++;
    since = 0;
    before = { lap, leapt };
    hottest_degC = Math.max(hottest_degC, leap(w, lap, leapt));
    lost ||= w.y[at.BREAKER] >= 1 || w.y[at.AVAILABLE] <= 0;
    sums.time_s += leapt * lap.time_s;
    sums.charge_C += leapt * lap.charge_C;
    sums.energy_J += leapt * lap.energy_J;
    sums.laps += leapt;
    sums.leapt += leapt;
    sums.toReserve += leapt;
    w.due_s.duration -= leapt * lap.time_s;
    if (lost) breakOff(w, "completed");
  };
  const atLaps = (w: Working) => {
    if (w.lapsDone === done) return;
    done = w.lapsDone;
    onLap(w);
    reopenBooks(w);
    begun = w.time_s;
  };
  const driver = (w: Working) => {
    atLaps(w);
    if (w.outcome === undefined) drive(w);
  };
  const w = run(plan, { laps: Number.POSITIVE_INFINITY, driver, observers: [observer] });
  atLaps(w);
  const early = w.endedBy !== undefined && w.endedBy !== "duration" && w.endedBy !== "one_day";
  if (lost || (early && sums.leapt > 0 && since < 2)) return null;
  close(w);
  return {
    laps_to_reserve: sums.toReserve,
    laps: sums.laps,
    ended_by: w.endedBy ?? null,
    outcome: w.outcome ?? "completed",
    ended_at_m: chainage_m(w),
    time_s: sums.time_s,
    charge_C: sums.charge_C,
    energy_J: sums.energy_J,
    winding_degC: Math.max(hottest_degC, lap_degC),
    leapt: sums.leapt,
    rows,
  };
}

const lapOf = ({ y, time_s }: Working, begun_s: number): Lap => ({
  time_s: time_s - begun_s,
  charge_C: y[at.DRAWN_CHARGE],
  energy_J: y[at.DRAWN] - y[at.RETURNED],
  square_A2s: y[at.BATTERY_SQUARE],
  copper_J: y[at.COPPER],
  brushes_J: y[at.BRUSHES],
  drag_J: y[at.MOTOR_DRAG],
  distance_m: y[at.RUN],
  winding_degC: y[at.WINDING],
});

/** So many laps at the means of this one: wells, heat and breaker move on, the train stands where it is. */
function leap({ y, train, air_degC }: Working, lap: Lap, laps: number): number {
  const { battery, heat, breaker, motor, gears, radius_m } = train;
  const { time_s } = lap;
  const whole_s = laps * time_s;
  [y[at.AVAILABLE], y[at.BOUND]] = wellsAfter_C(battery, y[at.AVAILABLE], y[at.BOUND], lap.charge_C / time_s, whole_s);
  const cooling = coolingShare(heat, ((lap.distance_m / time_s) * gears.ratio) / radius_m);
  const rms_A = Math.sqrt(lap.square_A2s / time_s);
  const cold_ohm = motorResistance_ohm(motor, lap.winding_degC);
  const steps = Math.ceil(whole_s / SLOW_s);
  let hottest_degC = y[at.WINDING];
  for (let i = 0; i < steps; i++) {
    const copper_W = (lap.copper_J / time_s) * (motorResistance_ohm(motor, y[at.WINDING]) / cold_ohm);
    const winding = windingRate_Kps(heat, copper_W + lap.brushes_J / time_s, y[at.WINDING], y[at.CASE]);
    const casing = caseRate_Kps(heat, lap.drag_J / time_s, y[at.WINDING], y[at.CASE], air_degC, cooling);
    y[at.BREAKER] += imageRate_ps(breaker, y[at.BREAKER], rms_A) * (whole_s / steps);
    y[at.WINDING] += winding * (whole_s / steps);
    y[at.CASE] += casing * (whole_s / steps);
    hottest_degC = Math.max(hottest_degC, y[at.WINDING]);
  }
  return hottest_degC;
}

/** Half of what the lap after a leap takes more than the one before it, for every lap that was leapt. */
function makeUp(
  w: Working,
  sums: { time_s: number; charge_C: number; energy_J: number },
  { lap, leapt }: { lap: Lap; leapt: number },
  after: Lap,
): void {
  const more = (of: (each: Lap) => number) => (leapt * (of(after) - of(lap))) / 2;
  const { battery } = w.train;
  const charge_C = more((each) => each.charge_C);
  w.y[at.AVAILABLE] -= battery.availableShare * charge_C;
  w.y[at.BOUND] -= (1 - battery.availableShare) * charge_C;
  w.due_s.duration -= more((each) => each.time_s);
  sums.time_s += more((each) => each.time_s);
  sums.charge_C += charge_C;
  sums.energy_J += more((each) => each.energy_J);
}
