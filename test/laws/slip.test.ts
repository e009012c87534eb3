import { describe, expect, it } from "vitest";
import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { breakOff, moveLever, type Working } from "../../packages/sim-core/src/working.js";
import { books, watchLosses } from "../support/books.js";
import { clubPlan, LOCO } from "../support/club.js";
import { eventOf, pullUntil } from "../support/drivers.js";
import { hill, level } from "../support/profiles.js";
import { textbookPlan } from "../support/textbook.js";

const G_mps2 = 9.80665;
const SLIDING = 0.6;

describe("wheels that spin", () => {
  // Derived: while they slide, train and rims are two bodies with one friction between them. With grip μN, sliding grip
  // S = 0.6 μN, pull F, resistance A: v = (S - A) t/m, v_r = (F - S) t/m_r. Power off at t₁ they meet after
  // (v_r - v) / (S/m_r + (S - A)/m), and then coast on at -A/(m + m_r).
  it("leave, come back and lose what two bodies rubbing on each other lose", () => {
    const [m, m_r, mu, F, A] = [500, 40, 0.1, 700, 60];
    const S = SLIDING * mu * m * G_mps2;
    const t1 = 1;
    const plan = textbookPlan({ mass_kg: m, rotating_kg: m_r, adhesion: mu, pull_N: F, A_N: A, winding_ohm: 0.05 });
    let spinning = { v: 0, v_r: 0 };
    const w = run(plan, {
      step_s: 0.05,
      driver: (working) => {
        if (Math.abs(working.time_s - t1) < 1e-9) spinning = { v: working.y[at.SPEED], v_r: working.y[at.RIM_SPEED] };
        pullUntil(t1)(working);
      },
    });
    const v1 = ((S - A) * t1) / m;
    const v_r1 = ((F - S) * t1) / m_r;
    expect(spinning.v).toBeCloseTo(v1, 9);
    expect(spinning.v_r).toBeCloseTo(v_r1, 9);
    const meeting_s = (v_r1 - v1) / (S / m_r + (S - A) / m);
    expect(eventOf(w, "grips").time_s).toBeCloseTo(t1 + meeting_s, 8);
    const slid_m = ((v_r1 - v1) * (t1 + meeting_s)) / 2;
    expect(w.y[at.SLIP]).toBeCloseTo(S * slid_m, 6);
    const together = v1 + ((S - A) * meeting_s) / m;
    expect(eventOf(w, "at_rest").time_s).toBeCloseTo(t1 + meeting_s + (together * (m + m_r)) / A, 7);
  });

  it("spin under a standing train until the driver gives up, and every joule goes into heat and rims", () => {
    const plan = clubPlan(hill(0.014), { lever: 0.9, track: { rail: "greasy" } });
    const { observer, shrunk } = watchLosses();
    const w = run(plan, { start: { chainage_m: 100 }, observers: [observer] });
    expect(w.outcome).toBe("slipping");
    expect(w.y[at.SPEED]).toBe(0);
    expect(w.y[at.POSITION]).toBe(100);
    expect(w.y[at.RIM_SPEED]).toBeGreaterThan(0.5);
    expect(w.y[at.SLIP]).toBeGreaterThan(10);
    expect(shrunk).toEqual(new Set());
    const { residual_J, turnover_J } = books(w);
    expect(Math.abs(residual_J)).toBeLessThan(1e-6 * turnover_J);
  });
});

describe("wheels that skid", () => {
  // Braked rims slow, stand, and never turn backwards of themselves: friction does not drive.
  it("come to no speed below 0 and make no energy", () => {
    const plan = clubPlan(
      level(),
      { track: { rail: "greasy" } },
      {
        controller: { ...LOCO.controller, motor_current_limit_A: 200, ramp_s: 0, electric_brake: "rheostatic" },
        wheels: { ...LOCO.wheels, driven_share: 0.3 },
      },
    );
    const { observer, shrunk } = watchLosses();
    let slowest_mps = Number.POSITIVE_INFINITY;
    const rims: Observer = {
      step: ({ y, mode }) => {
        if (mode.wheels !== 0) slowest_mps = Math.min(slowest_mps, y[at.RIM_SPEED]);
      },
      event: () => undefined,
    };
    const w = run(plan, {
      start: { speed_mps: 3 },
      observers: [observer, rims],
      driver: (working) => {
        if (working.mode.train === 0) breakOff(working, "completed");
        else moveLever(working, -1, 0.1);
      },
    });
    expect(w.events.map((event) => event.kind)).toContain("slips");
    expect(slowest_mps).toBeGreaterThan(-1e-9);
    expect(slowest_mps).toBeLessThan(1);
    expect(shrunk).toEqual(new Set());
    const { residual_J, turnover_J } = books(w);
    expect(Math.abs(residual_J)).toBeLessThan(1e-6 * turnover_J);
  });
});

describe("a train that rolls back", () => {
  // Derived: up a slope at v with power off and down again past the same place at v √((sin θ - c)/(sin θ + c)).
  it("comes past where it was slower by what it lost to rolling", () => {
    const [m, c, sine, v] = [600, 0.008, 0.02, 3];
    const [up, down] = [(G_mps2 * (sine + c)) / 1.05, (G_mps2 * (sine - c)) / 1.05];
    const height_m = (v * v) / (2 * up);
    const back_s = v / up + Math.sqrt((2 * height_m) / down);
    const plan = textbookPlan({
      mass_kg: m,
      rotating_kg: 0.05 * m,
      A_N: c * m * G_mps2,
      track: hill(sine),
      duration_s: back_s,
    });
    const shut = (working: Working) => moveLever(working, 0, 0.1);
    const w = run(plan, { step_s: 0.05, start: { chainage_m: 1000, speed_mps: v }, driver: shut });
    expect(w.y[at.POSITION]).toBeCloseTo(1000, 7);
    expect(w.y[at.SPEED]).toBeCloseTo(-v * Math.sqrt((sine - c) / (sine + c)), 8);
    expect(w.y[at.RUN]).toBeCloseTo(2 * height_m, 7);
  });

  // Derived: with the lever open it turns the motor backwards and drives a current through it that no controller holds
  // lower, I = k ω/R. It settles where that brakes as hard as gravity pulls: v = (m g sin θ - A) R (all of k, G, r being 1).
  it("is held to a steady speed by the current that it drives through the motor", () => {
    const [mass_kg, sine, A_N, winding_ohm] = [600, 0.02, 30, 0.01];
    const plan = textbookPlan({
      mass_kg,
      rotating_kg: 30,
      A_N,
      track: hill(sine),
      pull_N: 2,
      winding_ohm,
      duration_s: 240,
    });
    const w = run(plan, { step_s: 0.05, start: { chainage_m: 3000 } });
    expect(w.now.limitedBy).toBe("plugging");
    const settled_mps = (mass_kg * G_mps2 * sine - A_N) * winding_ohm;
    expect(w.y[at.SPEED]).toBeCloseTo(-settled_mps, 9);
    expect(w.now.motor_A).toBeCloseTo(settled_mps / winding_ohm, 6);
  });

  it("keeps its books when it rolls back off a hill it could not climb", () => {
    const plan = clubPlan(hill(0.06), { lever: 0.1, duration_s: 60 });
    const { observer, shrunk } = watchLosses();
    const w = run(plan, { start: { chainage_m: 200, speed_mps: 2 }, observers: [observer] });
    expect(w.events.map((event) => event.kind)).toEqual(["at_rest", "rolls_back", "completed"]);
    expect(shrunk).toEqual(new Set());
    const { residual_J, turnover_J } = books(w);
    expect(Math.abs(residual_J)).toBeLessThan(1e-6 * turnover_J);
  });
});
