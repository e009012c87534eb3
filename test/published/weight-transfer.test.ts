import { describe, expect, test } from "vitest";
import { run } from "../../packages/sim-core/src/run.js";
import { madePlan } from "../../packages/sim-core/src/train/plan.js";
import { level, slope } from "../support/profiles.js";

/**
 * Statics of a two-axle locomotive with its centre of gravity midway, pulling a train up a gradient at a steady speed:
 * moments about one axle give ΔN = (D h_d + m g sin θ h_c)/L. Derived from that line, not printed anywhere: the grip of
 * the rear and of the front axle, with D what the trailing load takes. Tolerance 1e-5: our rolling resistance is a share
 * of weight and leaves out the cosine of the slope, 2e-6 here; the steady speed is met to 1e-6.
 */
const CASES = [
  // loco kg, wheelbase, cg and coupling height m, adhesion, trailing kg, rolling, gradient, grip N of rear and front axle
  [200, 0.6, 0.3, 0.18, 0.2, 500, 0.008, 0.02, 208.251599844, 183.935970484],
  [300, 0.8, 0.4, 0.2, 0.15, 900, 0.008, 0.0125, 230.174739582, 211.090037954],
  [120, 0.45, 0.25, 0.15, 0.25, 280, 0.006, 0.03, 160.168601339, 133.898598182],
] as const;

describe("weight transfer of a loco with one driven axle", () => {
  test.each(CASES)(
    "%d kg",
    (loco_kg, wheelbase_m, cg_m, coupling_m, adhesion, trailing_kg, rolling, gradient, rear_N, front_N) => {
      for (const [driven_end, expected_N] of [
        ["rear", rear_N],
        ["front", front_N],
      ] as const) {
        // Twice the grip, halved again: at the stated one the front axle of each slips.
        const plan = madePlan(
          {
            track: { kind: "end-to-end", adhesion: 2 * adhesion },
            driver: { mass_kg: 0 },
            cars: [{ mass_kg: trailing_kg, length_m: 2, rolling, wheelset_inertia_kgm2: 0 }],
            drag_area_m2: 0,
            speed_mps: 1,
            duration_s: 40,
          },
          {
            name: "statics",
            gauge_m: 0.184,
            mass_kg: loco_kg,
            length_m: 1,
            wheels: {
              diameter_m: 0.2,
              driven_axles: 1,
              wheelbase_m,
              coupling_height_m: coupling_m,
              gravity_height_m: cg_m,
              driven_end,
            },
            resistance: { rolling },
            motor: { constants: { resistance_ohm: 0.05, torque_constant_NmpA: 0.1 } },
            gears: [{ ratio: 10 }],
            controller: { motor_current_limit_A: 400 },
            battery: {
              each: {
                voltage_V: 48,
                cells: 24,
                capacity: [{ capacity_C: 1e9 }],
                rested_voltage: [
                  [0, 48],
                  [1, 48],
                ],
                resistance_ohm: 0.001,
              },
            },
          },
          slope(Math.sin(Math.atan(gradient)), 200),
        );
        const w = run(plan);
        expect(w.endedBy).toBe("duration");
        expect(w.now.staticGrip_N / 2 / expected_N).toBeCloseTo(1, 5);
      }
    },
  );

  test("all axles chained together lose nothing", () => {
    const heights = { coupling_height_m: 0.2, gravity_height_m: 0.4 };
    const grips = [{}, heights].map((given) => {
      const plan = madePlan(
        { track: {}, lever: 1, duration_s: 2 },
        {
          name: "statics",
          gauge_m: 0.184,
          mass_kg: 150,
          wheels: { diameter_m: 0.17, driven_axles: 2, ...given },
          motor: { nameplate: { voltage_V: 24, current_A: 27, speed_radps: 270, power_W: 500 } },
          gears: [{ ratio: 12 }],
          controller: { motor_current_limit_A: 50 },
          battery: {
            chemistry: "lead-acid",
            in_series: 2,
            each: { voltage_V: 12, capacity: [{ capacity_C: 270000 }] },
          },
        },
        level(),
      );
      return run(plan).now.staticGrip_N;
    });
    expect(grips[1]).toBe(grips[0]);
  });
});
