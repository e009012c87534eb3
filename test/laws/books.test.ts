import { describe, expect, it } from "vitest";
import { energyBalance } from "../../packages/sim-core/src/record/balance.js";
import { run } from "../../packages/sim-core/src/run.js";
import type { Plan } from "../../packages/sim-core/src/train/plan.js";
import { chargeMissed, watchLosses } from "../support/books.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";
import { profile } from "../support/profiles.js";

// Law: the chemistry's fall is found again in losses, motion and height, all of it. Every place in the books is filled by
// the integration itself, so that what is left measures its error: fourth order, but for the bends.

const LINE = profile([
  [0, 0],
  [30, 0.3, 20],
  [60, 0.9],
  [80, 0.4, 15],
  [120, 0.4],
]);
const back = (at_ends: "propel" | "run-round" | "turn") =>
  clubPlan(LINE, { lever: 0.5, track: { kind: "end-to-end", at_ends } });
const braking = (controller: { electric_brake: "rheostatic" | "regenerative"; brake_resistance_ohm?: number }) =>
  clubPlan(CIRCUIT, { speed_mps: 1.5, charge: 0.8 }, { controller: { ...LOCO.controller, ...controller } });

/** Brakes on the loco's wheels and the cars', strong enough to lock them on a wet rail. */
const stopping = (adhesion: number) =>
  clubPlan(
    LINE,
    {
      speed_mps: 1.2,
      track: { kind: "end-to-end", at_ends: "run-round", adhesion },
      cars: [{ mass_kg: 60, length_m: 1.8, seats: 3, count: 2, brakes: [{ rail_force_N: 120, build_up_s: 0.4 }] }],
    },
    { brakes: [{ rail_force_N: 200 }] },
  );

const WORKINGS: [string, Plan][] = [
  ["lever held", clubPlan(CIRCUIT, { lever: 0.8, laps: 2 })],
  ["full lever, both current limits", clubPlan(CIRCUIT, { lever: 1, laps: 2 })],
  ["driven to a speed", clubPlan(CIRCUIT, { speed_mps: 1.8, laps: 2 })],
  ["a battery on its knee", clubPlan(CIRCUIT, { lever: 0.7, charge: 0.05 })],
  ["wheels slipping on a greasy rail", clubPlan(CIRCUIT, { lever: 0.7, track: { rail: "greasy" } })],
  ["out and back, propelling", back("propel")],
  ["out and back, run round", back("run-round")],
  ["out and back, turned", back("turn")],
  ["stopped by brakes on a dry rail", stopping(0.25)],
  ["stopped by brakes on a wet rail", stopping(0.12)],
  ["braked into a resistor", braking({ electric_brake: "rheostatic", brake_resistance_ohm: 0.3 })],
  ["braked into the battery", braking({ electric_brake: "regenerative" })],
];

describe.each(WORKINGS)("%s", (_, plan) => {
  it.each([
    [0.1, 1e-5],
    [0.05, 1e-6],
    [0.025, 1e-6],
  ])("closes its books at a step of %d s", (step_s, within) => {
    const { observer, shrunk } = watchLosses();
    const w = run(plan, { step_s, observers: [observer] });
    expect(["completed", "slipping"]).toContain(w.outcome);
    expect(Math.abs(energyBalance(w).residual_share)).toBeLessThan(within);
    expect(shrunk).toEqual(new Set());
    expect(chargeMissed(w)).toBeLessThan(1e-12);
  });
});

it("books every loss there is in one working or another", () => {
  const never = new Set<string>();
  const sums: Record<string, number> = {};
  for (const [, plan] of WORKINGS) {
    for (const [name, joules] of Object.entries(energyBalance(run(plan, { step_s: 0.1 })))) {
      sums[name] = Math.max(sums[name] ?? 0, Math.abs(joules));
    }
  }
  for (const [name, joules] of Object.entries(sums)) if (joules < 1e-9) never.add(name);
  expect(never).toEqual(new Set());
});

describe("a working that draws next to nothing", () => {
  const { accessories_W: _, ...wiring } = LOCO.wiring!;
  const dead = { controller: { ...LOCO.controller, standing_power_W: 0 }, wiring };
  const coasting = run(clubPlan(CIRCUIT, { lever: 1e-9 }, dead), { start: { chainage_m: 170, speed_mps: 0.6 } });

  it("closes its books on what changed hands, and shows what is missing from them", () => {
    const { drawn_J, kinetic_train_J, potential_J, residual_share } = energyBalance(coasting);
    expect(drawn_J).toBeLessThan(1e-3);
    expect(Math.abs(residual_share)).toBeLessThan(1e-6);
    const missing_J = 5;
    const amiss = energyBalance({ ...coasting, shifted_J: coasting.shifted_J + missing_J }).residual_share;
    // What changed hands is at least what came out of motion and height.
    expect(amiss).toBeGreaterThan(0);
    expect(amiss).toBeLessThanOrEqual(missing_J / Math.max(-kinetic_train_J, -potential_J));
    expect(amiss).toBeGreaterThan((0.3 * missing_J) / (Math.abs(kinetic_train_J) + Math.abs(potential_J)));
  });

  it.each([1e-9, 1e-6, 1e-3, 0.1, 1])("behind a fuse of %d A that goes at once, too", (rating_A) => {
    const { breaker: _, ...fused } = { ...LOCO.wiring!, fuse: { rating_A } };
    const w = run(clubPlan(CIRCUIT, { speed_mps: 1.5 }, { wiring: fused }));
    expect(w.endedBy).toBe("breaker");
    expect(Math.abs(energyBalance(w).residual_share)).toBeLessThan(1e-6);
  });
});
