import { describe, expect, it } from "vitest";
import { solveElectrics } from "../../packages/sim-core/src/drive/electrics.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { rim_N } from "../../packages/sim-core/src/parts/gears.js";
import { run } from "../../packages/sim-core/src/run.js";
import { startWorking } from "../../packages/sim-core/src/working.js";
import { NEVER_WARM, textbookPlan } from "../support/textbook.js";
import { checks, UNROUNDED } from "./check.js";

describe("battery, chopper and motor at one instant", () => {
  // Derived, not published: the equations of electrics.ts solved apart from it, for 25.2 V behind 20 mohm and the motor that
  // the plate 24 V 28 A 2500 rpm 500 W with 3 A free makes: 1/7 ohm, 0.0763943727 V s.
  const k = 0.0763943727;
  const motor_W = { mass_kg: 100, driven_share: 1 };
  function instant(lever: number, shaft_radps: number, parts: Partial<LocoDefinition["controller"]> = {}) {
    const plan = textbookPlan(motor_W, {
      motor: { constants: { resistance_ohm: 1 / 7, torque_constant_NmpA: k }, inertia_kgm2: 0.0025, heat: NEVER_WARM },
      battery: {
        each: {
          voltage_V: 25.2,
          capacity: [{ capacity_C: 1e6 }],
          rested_voltage: [
            [0, 25.2],
            [1, 25.2],
          ],
          resistance_ohm: 0.02,
        },
      },
      controller: {
        motor_current_limit_A: 1000,
        on_resistance_ohm: 0,
        standing_power_W: 0,
        undervoltage_cutout_V: 0,
        ramp_s: 0,
        ...parts,
      },
    });
    const w = startWorking(plan);
    w.mode.powered = true;
    solveElectrics(w.train, w.mode, lever, w.y, shaft_radps, w.now);
    return w.now;
  }
  const running = instant(0.6, 150);
  const rated = instant(1, (2500 * Math.PI) / 30);
  const stalled = instant(0.3, 0);
  const limited = instant(1, 150, { battery_current_limit_A: 20.1639565 });
  const row = (what: string, got: number, expected: number) => ({
    source: "derived",
    what,
    got,
    expected,
    ...UNROUNDED,
  });
  checks([
    row("motor current at lever 0.6, 150 rad/s", running.motor_A, 24.3963335),
    row("battery current", running.battery_A, 14.6378001),
    row("battery volts", running.terminal_V, 24.907244),
    row("torque", running.airGap_Nm, 1.86374259),
    row("power out of the e.m.f.", running.emf_V * running.battery_A, 368.872562),
    row("of it to the air gap", running.airGap_Nm * 150, 279.561389),
    row("of it to the winding", running.winding_ohm * running.motor_A ** 2, 85.0258696),
    row("motor current at full lever, 2500 rpm", rated.motor_A, 31.9298246),
    row("battery volts then", rated.terminal_V, 24.5614035),
    row("motor current at lever 0.3, stalled", stalled.motor_A, 52.261505),
    row("battery current then", stalled.battery_A, 15.6784515),
    row("with a switch of 4 mohm", instant(0.6, 150, { on_resistance_ohm: 0.004 }).motor_A, 23.7628975),
    row("battery held to the current that 500 W takes", limited.motor_V * limited.motor_A, 500),
    row("battery volts then", limited.terminal_V, 24.7967209),
  ]);
  it("is held back by what it should be", () => {
    expect([running, rated, limited].map((now) => now.limitedBy)).toEqual(["lever", "duty", "battery_current"]);
  });
});

describe("from motor to rail", () => {
  // Derived, not published: 12/36 then 15/45 teeth, 200 mm wheels, 0.97 a stage, by the usual formulas of chain drives.
  const gears: LocoDefinition["gears"] = [
    { teeth: [12, 36], efficiency: 0.97, driven_inertia_kgm2: 0.004 },
    { teeth: [15, 45], efficiency: 0.97, driven_inertia_kgm2: 0 },
  ];
  const wheels = { diameter_m: 0.2, driven_axles: 2, wheelset_inertia_kgm2: 0.09 };
  const motor = (inertia_kgm2: number) => ({
    constants: { resistance_ohm: 0.1, torque_constant_NmpA: 1 },
    inertia_kgm2,
    heat: NEVER_WARM,
  });
  const alone = textbookPlan({ mass_kg: 150 }, { gears, wheels, motor: motor(0.0025) }).train;
  const whole = textbookPlan({ mass_kg: 750 }, { gears, wheels, motor: motor(0.0025) }).train;
  const row = (what: string, got: number, expected: number, within: number, because: string) => ({
    source: "derived",
    what,
    got,
    expected,
    within,
    because,
  });
  checks([
    row("ratio", alone.gears.ratio, 9, 1e-15, "exact"),
    row("m/s at 1800 rpm", (60 * Math.PI * alone.radius_m) / alone.gears.ratio, 2.0944, 3e-6, "five figures"),
    row("N at the rail from 10 N m", rim_N(alone.gears, alone.radius_m, 10, 1), 846.81, 1e-12, "exact"),
    row("kg that the rotating parts add", alone.rim_kg, 20.25 + 3.6 + 18, 1e-12, "exact"),
    row("factor, loco alone", alone.effective_kg / alone.mass_kg, 1.279, 1e-12, "exact"),
    row("factor, train of 750 kg", whole.effective_kg / whole.mass_kg, 1.0558, 1e-12, "exact"),
  ]);

  // 150 kg on driven wheels at 0.20: they slip at 294.20 N, which is 3.474 N m at the motor.
  it("slips at 3.474 N m of motor torque", () => {
    const ends = [3.4735, 3.4745].map((motor_Nm) => {
      const plan = textbookPlan(
        { mass_kg: 150, adhesion: 0.2, pull_N: motor_Nm, A_N: 295 },
        { gears, wheels, motor: motor(0.0025) },
      );
      const w = run(plan, { step_s: 0.05 });
      return { outcome: w.outcome, contact_N: w.now.contact_N, grip_N: w.now.staticGrip_N };
    });
    expect(ends.map((end) => end.outcome)).toEqual(["stalled", "slipping"]);
    expect(ends[0].grip_N).toBeCloseTo(294.2, 2);
    expect(ends[0].contact_N).toBeCloseTo(3.4735 * 9 * 0.97 ** 2 * 10, 9);
  });
});
