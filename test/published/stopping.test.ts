import { describe, expect, it } from "vitest";
import { wantBrake } from "../../packages/sim-core/src/parts/brakes.application.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { breakOff, shutLever, type Working } from "../../packages/sim-core/src/working.js";
import { eventOf } from "../support/drivers.js";
import { hill, sineOf } from "../support/profiles.js";
import { textbookPlan } from "../support/textbook.js";

const G_mps2 = 9.80665;
const ROTATING = 1.05;

/** Power off and every brake on from the start; done when it stands. */
function stop(w: Working) {
  shutLever(w);
  w.train.brakes.forEach((_, i) => {
    wantBrake(w.train.brakes, w.application, i, 1, w.time_s);
  });
  if (w.mode.train === 0) breakOff(w, "completed");
}

/** Where the slope goes: 1 km up, then 1 km down. */
const on = (grade: number) => ({
  track: hill(sineOf(Math.abs(grade)), 2000),
  start_m: grade >= 0 ? 200 : 1200,
});

describe("delay, build-up and brake", () => {
  // Derived, not published, and worked out again by quadrature. Coasting at a_c = g (c cos θ + sin θ)/1.05 through the
  // delay t_r, the brake a_b rising evenly through t_b, then both: v₁ = v₀ - a_c t_r, v₂ = v₁ - a_c t_b - a_b t_b/2,
  // s = v₀ t_r - a_c t_r²/2 + v₁ t_b - a_c t_b²/2 - a_b t_b²/6 + v₂²/2(a_c + a_b). The brake bends the force only where a
  // step ends, so that the fourth order stands.
  it.each([
    [0.008, 0, 0.8, 0.75, 0.5, 2.2352, 4.85761869993, 3.4699209497],
    [0.008, -0.02, 0.8, 1.5, 1, 3.57632, 17.8407771586, 7.52430703353],
    [0.005, -0.0125, 1.2, 1, 0.3, 4.4704, 14.3473332839, 5.17753770132],
  ])("c %d on a grade of %d, %d m/s² after %d s and %d s", (c, grade, brake_mps2, delay_s, build_up_s, v, s, t) => {
    const mass_kg = 600;
    const { track, start_m } = on(grade);
    const plan = textbookPlan(
      {
        mass_kg,
        rotating_kg: (ROTATING - 1) * mass_kg,
        A_N: c * Math.cos(Math.atan(grade)) * mass_kg * G_mps2,
        track,
      },
      { brakes: [{ rail_force_N: brake_mps2 * ROTATING * mass_kg, delay_s, build_up_s }] },
    );
    const w = run(plan, { step_s: 0.05, start: { speed_mps: v, chainage_m: start_m }, driver: stop });
    expect(Math.abs(eventOf(w, "at_rest").time_s / t - 1)).toBeLessThan(1e-9);
    expect(Math.abs(w.y[at.RUN] / s - 1)).toBeLessThan(1e-9);
  });
});

describe("standing on a grade", () => {
  // Derived: a brake holds what gravity pulls, m g sin θ, up to the grip of the braked share of the weight, μ share m g cos θ;
  // nothing is allowed for rolling here.
  it.each([
    [700, 0.02, 0.15, 0.3, 137.265649615, 308.847711633, true],
    [1200, 0.0125, 0.15, 0.25, 147.088259179, 441.264777536, true],
    [400, 0.04, 0.1, 0.35, 156.78102531, 137.183397146, false],
  ])("%d kg on %d, grip %d on %d of the weight", (mass_kg, grade, adhesion, share, pull_N, grip_N, holds) => {
    const plan = textbookPlan(
      { mass_kg, adhesion, driven_share: share, rotating_kg: 10, track: hill(sineOf(grade)), duration_s: 20 },
      { brakes: [{ rail_force_N: 1e4, braked_share: share, delay_s: 0, build_up_s: 0.01 }] },
    );
    const w = run(plan, {
      step_s: 0.05,
      start: { chainage_m: 3000, held: true },
      driver: (working) => {
        shutLever(working);
        wantBrake(working.train.brakes, working.application, 0, 1, -1);
      },
    });
    expect(Math.abs(w.now.gravity_N / pull_N - 1)).toBeLessThan(1e-11);
    expect(Math.abs(w.now.onDrivers_N * adhesion - grip_N) / grip_N).toBeLessThan(1e-11);
    expect(w.y[at.RUN] > 0).toBe(!holds);
  });
});
