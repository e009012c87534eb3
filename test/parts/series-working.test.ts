import { describe, expect, it } from "vitest";
import { solveElectrics } from "../../packages/sim-core/src/drive/electrics.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { energyBalance } from "../../packages/sim-core/src/record/balance.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { check } from "../../packages/sim-core/src/studies/check/check.js";
import { startWorking } from "../../packages/sim-core/src/working.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";
import { hill, slope } from "../support/profiles.js";
import { NEVER_WARM, textbookPlan } from "../support/textbook.js";

/** Invented: the club's motor, were it wound in series. */
const nameplate = { voltage_V: 24, current_A: 26.7, speed_radps: 272, power_W: 500 };
const SERIES: LocoDefinition["motor"] = {
  kind: "series",
  nameplate,
  brush_drop_V: 0.4,
  inertia_kgm2: 0.0025,
  heat: { mass_kg: 6, insulation: "B" },
};

describe("a working with a series motor", () => {
  it.each([
    ["a lever held", { lever: 0.8 }],
    ["a speed", { speed_mps: 1.6 }],
    ["slipping wheels", { lever: 1, track: { kind: "circuit", adhesion: 0.06 } as const }],
  ])("closes its books: %s", (_, plan) => {
    // Limits that take over and the knee of its iron fall within steps: at the usual one they leave up to 3e-6.
    const w = run(clubPlan(CIRCUIT, plan, { motor: SERIES }), { step_s: 0.025 });
    expect(Math.abs(energyBalance(w).residual_share)).toBeLessThan(1e-6);
  });

  it("keeps to a speed uphill", () => {
    const plan = clubPlan(slope(0.012, 400), { speed_mps: 1.2, track: { kind: "end-to-end" } }, { motor: SERIES });
    let [least_mps, most_mps] = [9, 0];
    run(plan, {
      observers: [
        {
          step(w) {
            if (w.time_s < 30 || w.time_s > 120) return;
            least_mps = Math.min(least_mps, w.y[at.SPEED]!);
            most_mps = Math.max(most_mps, w.y[at.SPEED]!);
          },
          event() {},
        },
      ],
    });
    expect(least_mps).toBeGreaterThan(1.2 * 0.98);
    expect(most_mps).toBeLessThan(1.2 * 1.02);
  });

  // Without resistance and drag I = V/(c ω) and T = c I², so that m v² v' = V²/c: v³ = v0³ + 3 V² t/(m c). The winding's
  // 1e-6 ohm is a hundred-thousandth of c ω or less, which is the tolerance.
  it("runs away unloaded, as fast as the cube root of time", () => {
    const saturation = { resistance_ohm: 1e-6, speed_radps: 1, file: "" };
    const book = { mass_kg: 1000, battery_V: 100, duration_s: 60 };
    const motor = { kind: "series", saturation, inertia_kgm2: 0, heat: NEVER_WARM } as const;
    const plan = textbookPlan(book, { motor }, { saturation: [[1e6, 1e6]] });
    const w = run(plan, {
      start: { speed_mps: 1 },
      step_s: 0.01,
      driver: (working) => {
        working.lever = 1;
        working.leverWanted = 1;
        working.mode.powered = true;
      },
    });
    expect(w.y[at.SPEED]! / Math.cbrt(1 + (3 * 100 ** 2 * 60) / 1000)).toBeCloseTo(1, 4);
  });

  it("rolling back under power it plugs: its own current holds it to a speed, the less the lever the faster", () => {
    const steady = [0.15, 0.1, 0.05].map((lever) => {
      const plan = clubPlan(hill(0.05, 600), { lever, duration_s: 60 }, { motor: SERIES });
      const w = run(plan, { start: { chainage_m: 150, speed_mps: -0.2 } });
      expect(Math.abs(w.now.acceleration_mps2)).toBeLessThan(1e-3);
      expect(w.now.motor_A).toBeGreaterThan(10);
      return -w.y[at.SPEED]!;
    });
    expect(steady[0]).toBeGreaterThan(0);
    expect(steady[1]).toBeGreaterThan(steady[0]!);
    expect(steady[2]).toBeGreaterThan(steady[1]!);
  });

  it("pushed back faster than its current limit can answer, the current is what it is", () => {
    const controller = { ...LOCO.controller, motor_current_limit_A: 20 };
    const w = startWorking(clubPlan(CIRCUIT, {}, { motor: SERIES, controller }));
    w.mode.powered = true;
    const currentAt = (shaft_radps: number) => {
      solveElectrics(w.train, w.mode, 0.3, w.y, shaft_radps, w.now);
      return w.now.motor_A;
    };
    expect(currentAt(-10)).toBe(20);
    expect(w.now.limitedBy).toBe("motor_current");
    expect(currentAt(-200)).toBeGreaterThan(20);
    expect(w.now.limitedBy).toBe("plugging");
    expect(w.now.duty).toBe(0);
    // Winding, brushes and path take all that it makes.
    expect(w.now.motor_V).toBeCloseTo(0, 9);
  });
});

describe("what check tells of it", () => {
  const { motor, speed_at_no_load_mps } = check(clubPlan(CIRCUIT, {}, { motor: SERIES }));
  it("no speed unloaded, no best efficiency, and no infinity", () => {
    expect([
      motor.no_load_speed_rpm,
      speed_at_no_load_mps,
      motor.peak_efficiency,
      motor.peak_efficiency_current_A,
    ]).toEqual([null, null, null, null]);
    for (const value of Object.values(motor)) if (typeof value === "number") expect(value).toBeLessThan(1e6);
  });
  it("its stall by Ohm's law, its plate's efficiency, half the stall's current for most power", () => {
    const ohms = (24 - 500 / 26.7 - 0.4) / 26.7;
    expect(motor.resistance_ohm).toBeCloseTo(ohms, 12);
    expect(motor.stall_current_A).toBeCloseTo((24 - 0.4) / ohms, 9);
    expect(motor.rated_efficiency).toBeCloseTo(500 / (24 * 26.7), 12);
    expect(motor.peak_power_W).toBeCloseTo((24 - 0.4) ** 2 / (4 * ohms), 6);
  });
  it("warns that its plate says nothing of its iron", () => {
    const codes = (loco: LocoDefinition["motor"]) =>
      clubPlan(CIRCUIT, {}, { motor: loco }).notes.warnings.map(({ code }) => code);
    expect(codes(SERIES)).toContain("series_from_plate");
    expect(codes(LOCO.motor)).not.toContain("series_from_plate");
  });
});

// Derived, as any text on heat has it: with 0.5 K/W to the air and 1/7 ohm at 20 °C, copper of 0.393 %/K makes as much heat
// as it sheds at √(1/(0.00393 · 0.5/7)) = 59.6853497 A.
describe("a stalled motor's heat", () => {
  const stallAt = (motor_current_limit_A: number) => {
    const motor = {
      constants: { resistance_ohm: 1 / 7, torque_constant_NmpA: 0.03 },
      inertia_kgm2: 0.0025,
      rated: { voltage_V: 24, current_A: 20 },
      heat: {
        winding_capacity_JpK: 1000,
        case_capacity_JpK: 2000,
        winding_to_case_KpW: 0.2,
        case_to_air_KpW: 0.3,
      },
    };
    const controller = { ...LOCO.controller, motor_current_limit_A };
    const w = run(clubPlan(CIRCUIT, { lever: 1 }, { motor, controller, gears: [{ ratio: 1 }] }));
    expect(w.outcome).toBe("stalled");
    return w;
  };
  it("runs away from 59.69 A on, and its last event tells so", () => {
    expect(stallAt(59.68).stall?.thermal_runaway).toBe(false);
    const w = stallAt(59.69);
    expect(w.stall?.thermal_runaway).toBe(true);
    expect(w.stall?.too_hot_s).toBeGreaterThan(0);
    expect(w.events.at(-1)).toMatchObject({ kind: "stalled", thermal_runaway: true, pull_N: w.stall?.pull_N });
  });
});
