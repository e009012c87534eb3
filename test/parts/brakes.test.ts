import { describe, expect, it } from "vitest";
import {
  brakeFor,
  brakesActIn_s,
  letOff,
  mostBraking_N,
  timeToBite_s,
} from "../../packages/sim-core/src/driver/hands.js";
import { motion } from "../../packages/sim-core/src/motion.js";
import { appliedAt } from "../../packages/sim-core/src/parts/brakes.application.js";
import * as at from "../../packages/sim-core/src/state.js";
import { startWorking } from "../../packages/sim-core/src/working.js";
import { clubPlan, LOCO } from "../support/club.js";
import { level } from "../support/profiles.js";

const G_mps2 = 9.80665;
const TRACK = level(200);
/** Passengers 4 on two cars of 60 kg: 210 kg each; the loco 140 kg and its driver 80 kg. */
const [CAR_N, LOCO_N] = [210 * G_mps2, 220 * G_mps2];

const brakesOf = (loco: Parameters<typeof clubPlan>[2], plan: Parameters<typeof clubPlan>[1] = {}) =>
  clubPlan(TRACK, plan, loco).train.brakes;

describe("where a brake acts", () => {
  it("on a car: on axles that are not driven, with the share of weight that is braked", () => {
    const cars = (brake: object) => [
      { mass_kg: 60, length_m: 1.8, seats: 3, count: 2, wheel_diameter_m: 0.11, ...brake },
    ];
    const [byForce] = brakesOf({}, { cars: cars({ brakes: [{ rail_force_N: 100, braked_share: 0.5 }] }) });
    expect(byForce).toMatchObject({ vehicle: 1, rim_N: 0, axle_N: 100 });
    expect(byForce.axleWeight_N).toBeCloseTo(CAR_N / 2, 6);
    const [byTorque, other] = brakesOf({}, { cars: cars({ brakes: [{ torque_Nm: 5.5, on: "axle" }] }) });
    expect(byTorque.axle_N).toBeCloseTo(5.5 / 0.055, 9);
    expect(byTorque.axleWeight_N).toBeCloseTo(CAR_N, 6);
    expect(other.vehicle).toBe(2);
  });

  it("on a loco: shared between driven axles and others by their weight, the driven ones first", () => {
    const wheels = { ...LOCO.wheels, driven_axles: 1 };
    const [whole] = brakesOf({ wheels, brakes: [{ rail_force_N: 100 }] });
    expect([whole.rim_N, whole.axle_N, whole.axleWeight_N]).toEqual([50, 50, LOCO_N / 2]);
    const [half] = brakesOf({ wheels, brakes: [{ rail_force_N: 100, braked_share: 0.5 }] });
    expect([half.rim_N, half.axle_N]).toEqual([100, 0]);
  });

  it("on the motor's shaft: through the gears, whose loss helps it", () => {
    const [brake] = brakesOf({ brakes: [{ torque_Nm: 1, on: "motor" }] });
    const ratio = (45 / 11) * (30 / 12);
    expect(brake.rim_N).toBeCloseTo(ratio / 0.96 ** 2 / (0.165 / 2), 9);
    expect(brake.axle_N).toBe(0);
  });
});

describe("a careful hand", () => {
  // 0.98 of what the wheels under the brakes pass on, however many brakes there are on them.
  it("puts two brakes on the same wheels no further than one", () => {
    const grip_N = 0.98 * 0.08 * LOCO_N;
    for (const brakes of [[{ rail_force_N: 500 }], [{ rail_force_N: 300 }, { rail_force_N: 300 }]]) {
      const plan = clubPlan(TRACK, { speed_mps: 1, track: { rail: "greasy" } }, { brakes });
      expect(mostBraking_N(startWorking(plan))).toBeCloseTo(grip_N, 6);
    }
  });

  it("uses them in the order fitted, and leaves the guard's alone", () => {
    const brakes = [{ rail_force_N: 100 }, { rail_force_N: 200, by: "guard" as const }, { rail_force_N: 100 }];
    const w = startWorking(clubPlan(TRACK, { speed_mps: 1 }, { brakes }), { speed_mps: 1 });
    motion(w, new Float64Array(at.SIZE), w.y, 0);
    brakeFor(w, 150, Number.POSITIVE_INFINITY, 0);
    const on = w.train.brakes.map((_, i) => appliedAt(w.train.brakes, w.application, i, 10));
    expect(on[0]).toBe(1);
    expect(on[1]).toBe(0);
    expect(on[2]).toBeCloseTo(0.5, 9);
    brakeFor(w, -5, Number.POSITIVE_INFINITY, 0);
    expect(w.train.brakes.map((_, i) => appliedAt(w.train.brakes, w.application, i, 20))).toEqual([0, 0, 0]);
  });

  // Off, the delay; told, what is left of it and half the way of the share asked; there, nothing.
  it("knows how much later they act", () => {
    const brakes = [{ rail_force_N: 100, delay_s: 0.4, build_up_s: 1 }];
    const w = startWorking(clubPlan(TRACK, { speed_mps: 1 }, { brakes }), { speed_mps: 1 });
    expect(timeToBite_s(w, 50)).toBeCloseTo(0.4 + 0.25, 9);
    expect(brakesActIn_s(w)).toBe(0.4);
    brakeFor(w, 50, Number.POSITIVE_INFINITY, 0);
    const left_s = [0, 0.3, 0.5, 0.9].map((time_s) => brakesActIn_s({ ...w, time_s }));
    for (const [i, wanted_s] of [0.4 + 0.25, 0.1 + 0.25, 0.2, 0].entries()) expect(left_s[i]).toBeCloseTo(wanted_s, 9);
  });

  it("asks no more of brakes on the driven wheels than those have left, and a least share all the same", () => {
    const brakes = [{ rail_force_N: 100 }, { rail_force_N: 100 }];
    const w = startWorking(clubPlan(TRACK, { speed_mps: 1 }, { brakes }), { speed_mps: 1 });
    brakeFor(w, 200, 30, 0.1);
    expect(Array.from(w.application.wanted)).toEqual([0.3, 0.1]);
    letOff(w);
    expect(Array.from(w.application.wanted)).toEqual([0, 0]);
  });
});

// Statics, derived: ΔN = (D h_d + m a h_c)/L moves to the rear axle, D what the couplings pull. Of the loco alone: contact
// less rolling, less the brake on its own undriven axle, less m a with its undriven wheels. Rounding: 1e-9.
it("a brake on the undriven axle is in the pull at the coupling", () => {
  const wheels = { ...LOCO.wheels, driven_axles: 1, wheelbase_m: 0.6, coupling_height_m: 0.15, gravity_height_m: 0.3 };
  const plan = clubPlan(
    TRACK,
    { lever: 1 },
    { wheels: { ...wheels, driven_end: "rear" }, brakes: [{ rail_force_N: 200 }] },
  );
  const w = startWorking(plan, { speed_mps: 1, chainage_m: 50 });
  w.application.from.fill(1);
  w.application.wanted.fill(1);
  motion(w, new Float64Array(at.SIZE), w.y, 0);
  const { now, train } = w;
  const a = now.acceleration_mps2;
  const pull_N = now.contact_N - 100 - train.locoRolling_N - train.locoTranslating_kg * a;
  const moved_N = (pull_N * 0.15 + train.locoBody_kg * a * 0.3) / 0.6;
  expect(a).toBeLessThan(-0.2);
  expect(now.staticGrip_N / (0.25 * (LOCO_N / 2 + moved_N))).toBeCloseTo(1, 9);
});
