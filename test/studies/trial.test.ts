import { beforeAll, describe, expect, test } from "vitest";
import { restartGradient } from "../../packages/sim-core/src/drive/climbing.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import type { TraceRow } from "../../packages/sim-core/src/record/trace.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { brakes } from "../../packages/sim-core/src/studies/brakes/brakes.js";
import { cold } from "../../packages/sim-core/src/studies/climb/climb.js";
import { runOnce, usualStep_s } from "../../packages/sim-core/src/studies/once.js";
import { SYMPTOMS } from "../../packages/sim-core/src/studies/trial/faults.signs.js";
import { statesOf } from "../../packages/sim-core/src/studies/trial/states.js";
import { type Trial, trial, trialOf } from "../../packages/sim-core/src/studies/trial/trial.js";
import { madePlan } from "../../packages/sim-core/src/train/plan.js";
import { CIRCUIT, clubOuting, LOCO, PLAN } from "../support/club.js";
import { level } from "../support/profiles.js";
import { NEVER_WARM } from "../support/textbook.js";

// A battery without polarisation and a motor that stays cool, so that a run settles at what the meters read at once.
const { polarisation: _, ...each } = LOCO.battery.each;
const STILL: LocoDefinition = {
  ...LOCO,
  motor: { ...LOCO.motor, heat: NEVER_WARM },
  battery: {
    ...LOCO.battery,
    each: { ...each, kinetic: { capacity_C: 1e9, available_share: 1, exponent_rate_ps: 1 } },
  },
  brakes: [{ rail_force_N: 300, delay_s: 0.2, build_up_s: 0.4 }],
};
const { lever: _lever, ...HELD } = PLAN;
const TO_SPEED = { ...HELD, speed_mps: 1.6 };
const EMPTY = { ...TO_SPEED, passengers: 0 };

let ready: Trial;
const expected = (reading: string) => {
  const line = ready.sheet.flatMap(({ readings }) => readings).find((each) => each.reading === reading);
  return line?.expected as number;
};

beforeAll(() => {
  ready = trialOf(clubOuting(STILL, TO_SPEED), STILL, { long: true });
});

describe("the sheet says what the studies say of the same state", () => {
  test("run: a lever held on the level until nothing changes", () => {
    const { levers, machine } = ready.setting;
    const plan = { ...HELD, passengers: 0, lever: levers.run, duration_s: 300 };
    const track = { ...plan.track, kind: "end-to-end" as const };
    const rows: TraceRow[] = [];
    runOnce(madePlan({ ...plan, track }, STILL, level()), { onRow: (row) => rows.push({ ...row }) });
    const last = rows.at(-2)!;
    expect(last.acceleration_mps2).toBeCloseTo(0, 8);
    expect(last.speed_mps / expected("run_speed")).toBeCloseTo(1, 5);
    expect(last.motor_current_A / expected("run_motor_amps")).toBeCloseTo(1, 5);
    expect(last.battery_current_A / expected("run_battery_amps")).toBeCloseTo(1, 5);
    expect(last.battery_voltage_V / expected("run_battery_volts")).toBeCloseTo(1, 5);
    const cable_V = last.battery_voltage_V - last.battery_current_A * machine.train.batteryCable_ohm;
    expect(cable_V / expected("run_controller_volts")).toBeCloseTo(1, 5);
    expect(last.motor_voltage_V - last.motor_current_A * machine.train.motorPath_ohm).toBeCloseTo(
      expected("run_motor_volts"),
      3,
    );
  });

  test("climb: it restarts where the load table lets it, and not a little beyond", () => {
    const { setting } = ready;
    const { sine } = restartGradient(setting.machine.train, cold(setting.outing.train));
    const spare = (steep: number) => statesOf(setting, { ...setting.machine, steep }).spare().start_N;
    expect(spare(sine - 1e-6)).toBeGreaterThan(0);
    expect(spare(sine + 1e-6)).toBeLessThan(0);
  });

  test("brakes: from line speed on the level, and from walking pace with power off", () => {
    const track = { ...EMPTY.track, kind: "end-to-end" as const };
    const stops = (speed_mps: number) => {
      const plan = madePlan({ ...EMPTY, speed_mps, track, reaction_time_s: 0 }, STILL, level(80));
      const { rows } = brakes(plan, { step_s: usualStep_s(plan), sight_m: 20 });
      return (set: string) =>
        rows.find(({ brakes: own, rail, direction }) => own === set && rail === "dry" && direction === "out")
          ?.distance_m;
    };
    const { line_mps, walk_mps } = ready.setting.speeds;
    const fromLine_m = stops(line_mps);
    for (const set of ["drag", "loco"]) expect(expected(`stop_${set}`)).toBeCloseTo(fromLine_m(set)!, 6);
    expect(expected("run_on")).toBeCloseTo(stops(walk_mps)("drag")!, 6);
  });

  test("run: after ten laps", () => {
    const warm = { ...STILL, motor: LOCO.motor, battery: LOCO.battery };
    const own = trialOf(clubOuting(warm, TO_SPEED), warm, { long: true });
    const of = (reading: string) =>
      own.sheet.flatMap(({ readings }) => readings).find((line) => line.reading === reading)?.expected as number;
    const w = run(madePlan({ ...EMPTY, laps: 10 }, warm, CIRCUIT));
    expect(of("after_winding")).toBeCloseTo(w.y[at.WINDING]!, 9);
    expect(of("after_case")).toBeCloseTo(w.y[at.CASE]!, 9);
  });
});

describe("the sheet", () => {
  test("has every expected value inside its own band, each reading once", () => {
    const lines = ready.sheet.flatMap(({ readings }) => readings);
    expect(new Set(lines.map(({ reading }) => reading)).size).toBe(lines.length);
    for (const { reading, expected: value, low, high, unit } of lines) {
      if (unit === "yes/no") expect(["yes", "no"], reading).toContain(value);
      else {
        expect(low!, reading).toBeLessThan(value as number);
        expect(high!, reading).toBeGreaterThan(value as number);
      }
    }
  });

  test("bands what the files give more closely than what they leave out", () => {
    const { resistance: _given, ...guessed } = STILL;
    const wide = trialOf(
      clubOuting({ ...STILL, resistance: {} }, TO_SPEED),
      { ...guessed, resistance: {} },
      { long: true },
    );
    const share = (own: Trial) => {
      const {
        low,
        high,
        expected: value,
      } = own.sheet.flatMap(({ readings }) => readings).find(({ reading }) => reading === "roll_train")!;
      return (high! - low!) / (value as number);
    };
    expect(share(wide)).toBeGreaterThan(1.2 * share(ready));
  });

  test("is without unloaded runs for a series motor, and without batteries to compare where there is one", () => {
    const series: LocoDefinition = {
      ...STILL,
      motor: { kind: "series", nameplate: { voltage_V: 24, current_A: 26.7, speed_radps: 272, power_W: 500 } },
      battery: {
        chemistry: "lead-acid",
        each: { voltage_V: 24, capacity: [{ capacity_C: 75 * 3600, time_s: 72000 }] },
      },
    };
    const own = trialOf(clubOuting(series, TO_SPEED), series, { long: true });
    const names = own.sheet.flatMap(({ readings }) => readings.map(({ reading }) => reading));
    expect(names).not.toContain("stands_rpm_full");
    expect(names).not.toContain("battery_1_volts");
    expect(names).toContain("run_speed");
  });
});

describe("the fault table", () => {
  test("has every symptom, with causes that show it and what they read", () => {
    const faults = trial(clubOuting(STILL, TO_SPEED), STILL, { long: true }).faults!;
    expect(faults.map(({ symptom }) => symptom)).toEqual(SYMPTOMS);
    for (const { symptom, causes, sound } of faults) {
      // This breaker, of 63 A, lets pass whatever the drive takes.
      if (symptom !== "trips") expect(causes.length, symptom).toBeGreaterThan(0);
      for (const cause of causes)
        expect(cause.readings.map(({ reading }) => reading)).toEqual(sound.map(({ reading }) => reading));
    }
    const named = (symptom: string) => faults.find((row) => row.symptom === symptom)!.causes.map(({ cause }) => cause);
    expect(named("no_amps")).toEqual(expect.arrayContaining(["open_circuit"]));
    expect(named("amps_without_movement")).toEqual(expect.arrayContaining(["held_wheel"]));
    expect(named("volts_fall_too_far")).toEqual(expect.arrayContaining(["flat_battery", "old_battery", "bad_joint"]));
    expect(named("wrong_way")).toEqual(["reversed_lead"]);
  });

  test("has a breaker trip for what draws more than it carries", () => {
    const weak = { ...STILL, wiring: { ...STILL.wiring, breaker: { rating_A: 6, curve: "C" as const } } };
    const faults = trial(clubOuting(weak, TO_SPEED), weak, { long: true }).faults!;
    const { causes, sound } = faults.find(({ symptom }) => symptom === "trips")!;
    expect(causes.map(({ cause }) => cause)).toContain("held_wheel");
    const battery_A = (readings: typeof sound) => Math.max(...readings.slice(0, 2).map(({ value }) => value ?? 0));
    for (const { readings } of causes) expect(battery_A(readings)).toBeGreaterThan(6);
  });
});
