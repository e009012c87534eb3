import { describe, expect, it } from "vitest";
import { brakes } from "../../packages/sim-core/src/studies/brakes/brakes.js";
import { holdingSine, parkingWith } from "../../packages/sim-core/src/studies/brakes/parking.js";
import { placesOf } from "../../packages/sim-core/src/studies/brakes/places.js";
import { waysOf } from "../../packages/sim-core/src/studies/ways.js";
import type { Plan } from "../../packages/sim-core/src/train/plan.js";
import { bookStop } from "../support/braking.js";
import { hill, level, sineOf } from "../support/profiles.js";
import { type Textbook, textbookPlan } from "../support/textbook.js";

const G_mps2 = 9.80665;
const FOOT_m = 0.3048;
const MASS_kg = 500;

function expectClose(got: number, expected: number, within: number) {
  expect(Math.abs(got / expected - 1), `${got} for ${expected}`).toBeLessThan(within);
}

// Derived, not published: each figure was worked out from the formula beside it and again by integration, which agreed to
// 2e-13. Smooth runs at the usual step are true to about 1e-9.
describe("closed forms", () => {
  const SMOOTH = 1e-9;

  // Reaction time coasting at a_c = g (c cos θ + sin θ)/λ, build-up t_b, then the brake's own a_b: v₁ = v - a_c t_r, v₂ = v₁ -
  // a_c t_b - a_b t_b/2, s = v t_r - a_c t_r²/2 + v₁ t_b - a_c t_b²/2 - a_b t_b²/6 + v₂²/2(a_c + a_b)
  it.each([
    [0.008, 0, 0.8, 0.75, 0.5, 2.2352, 4.85761869993, 3.4699209497],
    [0.008, -0.02, 0.8, 1.5, 1.0, 3.57632, 17.8407771586, 7.52430703353],
    [0.005, -0.0125, 1.2, 1.0, 0.3, 4.4704, 14.3473332839, 5.17753770132],
  ])("reaction, build-up, brake: rolling %d, gradient %d", (c, grade, a_b, reaction_s, build_up_s, v, s, t) => {
    const rotating_kg = 0.05 * MASS_kg;
    const book: Textbook = {
      mass_kg: MASS_kg,
      rotating_kg,
      A_N: c * Math.cos(Math.atan(grade)) * MASS_kg * G_mps2,
      track: grade === 0 ? level() : hill(sineOf(-grade), 2000),
    };
    const brake = { rail_force_N: a_b * (MASS_kg + rotating_kg), delay_s: 0, build_up_s };
    const stop = { speed_mps: v, reaction_s, chainage_m: 1200 };
    const { distance_m, time_s } = bookStop(book, [brake], stop);
    expectClose(distance_m, s, SMOOTH);
    expectClose(time_s, t, SMOOTH);
    // The delay is so much more of running on.
    const later = bookStop(book, [{ ...brake, delay_s: 0.25 }], { ...stop, reaction_s: reaction_s - 0.25 });
    expectClose(later.distance_m, s, SMOOTH);
  });

  /** A train that only rolls, in the hands of the study; its driver shuts off at once. */
  const rolling = (book: Textbook, speed_mps: number) =>
    brakes({ ...textbookPlan({ ...book, winding_ohm: 1 }), speed_mps, lever: Number.NaN, reaction_s: 0 });

  // Coasting from v against A + C v²: t = (m/√(AC)) atan(v √(C/A)), s = (m/2C) ln(1 + C v²/A)
  it.each([
    [630, 61.78, 0.55, 2.2352, 22.4642007755, 24.9236395254],
    [1260, 123.56, 0.8, 3.57632, 35.50998897, 62.653400969],
    [367.5, 17.16, 0.4, 4.4704, 84.0085097103, 175.677635295],
  ])("with no brake: %d kg", (m, A_N, C_Ns2pm2, v, t, s) => {
    const mass_kg = m / 1.05;
    const track = level(60);
    const { worst } = rolling({ mass_kg, rotating_kg: m - mass_kg, A_N, C_Ns2pm2, track, length_m: 10 }, v);
    const none = worst.find((row) => row.brakes === "none");
    expectClose(none?.distance_m ?? 0, s, 1e-7);
    expectClose(none?.time_s ?? 0, t, 1e-7);
  });

  /** Left standing at a place of a circuit, and where it is pulled hardest. */
  const leftAt = (plan: Plan, head_m: number) => {
    const ways = waysOf(plan);
    const places = placesOf(plan, ways[0]).filter(({ along_m }) => along_m === head_m);
    const own = { rail: plan.rail, adhesion: plan.train.adhesion };
    return parkingWith({ plan, ways, places, speed_mps: 1, sight_m: 20, step_s: 0.1 }, own);
  };

  // Left on a slope: K = m g (sin θ - c cos θ), v_T = √(K/C), τ = m_e/√(K C), v = v_T tanh(t/τ). 1e-7: a step of
  // 0.1 s.
  it.each([
    [600, 0.008, 0.55, 0.02, 11.3292672201],
    [1200, 0.008, 0.8, 0.0125, 8.13570627729],
    [350, 0.005, 0.4, 0.03, 14.6432236769],
  ])("a runaway: %d kg", (mass_kg, c, C_Ns2pm2, grade, top_mps) => {
    const A_N = c * Math.cos(Math.atan(grade)) * mass_kg * G_mps2;
    const book = { mass_kg, rotating_kg: 0.05 * mass_kg, A_N, C_Ns2pm2, track: hill(sineOf(grade), 2000) };
    const [none] = leftAt(textbookPlan(book), 1100);
    const off = none.places_it_will_not_hold.find(({ chainage_m }) => chainage_m === 1100);
    const K_N = mass_kg * G_mps2 * sineOf(grade) - A_N;
    expectClose(Math.sqrt(K_N / C_Ns2pm2), top_mps, 1e-10);
    expect(off?.way).toBe("forwards");
    for (const { time_s, speed_mps } of off?.after ?? []) {
      const tau_s = (1.05 * mass_kg) / Math.sqrt(K_N * C_Ns2pm2);
      expectClose(speed_mps ?? 0, top_mps * Math.tanh(time_s / tau_s), 1e-7);
    }
    expect(off?.after).toHaveLength(3);
  });

  // Holding: m g sin θ against μ times the braked share of m g cos θ, no credit for rolling; the steepest is tan θ = μ share.
  it.each([
    [700, 0.02, 0.15, 0.3, 137.265649615, 308.847711633],
    [1200, 0.0125, 0.15, 0.25, 147.088259179, 441.264777536],
    [400, 0.04, 0.1, 0.35, 156.78102531, 137.183397146],
  ])("held on a gradient: %d kg, %d", (mass_kg, grade, grip, share, pull_N, grip_N) => {
    const cosine = Math.cos(Math.atan(grade));
    expectClose(mass_kg * G_mps2 * sineOf(grade), pull_N, 1e-9);
    const track = hill(sineOf(grade), 2000);
    const brake = { rail_force_N: 1e4, braked_share: share };
    const plan = textbookPlan({ mass_kg, adhesion: grip, driven_share: share, track }, { brakes: [brake] });
    expectClose(Math.tan(Math.asin(holdingSine(plan.train))), grip_N / (mass_kg * G_mps2 * cosine), 1e-9);
    const all = leftAt(plan, 1100).find((row) => row.brakes === "all");
    expectClose(all?.holding_gradient_percent ?? 0, 100 * sineOf(grip * share), 1e-9);
    expect(all?.chocks_wanted).toBe(grip_N < pull_N);
    // What does not hold slides, its wheels locked: at 0.6 of the grip, with nothing else against it.
    for (const { chainage_m, way, after } of all?.places_it_will_not_hold ?? []) {
      if (chainage_m !== 1100) continue;
      const expected_mps2 = (pull_N - 0.6 * grip_N) / mass_kg;
      expect(way).toBe("forwards");
      for (const { time_s, speed_mps } of after) expectClose(speed_mps ?? 0, expected_mps2 * time_s, 1e-6);
    }
  });
});

describe("people", () => {
  // 0.36 g: Jacobs et al., Proc. HFES 24 (1980) 488-491; 8 ft/s²: TxDOT 22.3.4; 1.0 and 2.5 m/s²: sled tests. From 2.2352
  // m/s with a_b of 3.6, 2.46, 1.2 and 0.9 m/s² each limit is passed or not.
  it.each([
    [0.9, []],
    [1.2, ["standing_recovers"]],
    [2.46, ["standing_recovers", "standing_transit"]],
    [2.52, ["standing_recovers", "standing_transit", "standing_steps"]],
    [3.6, ["standing_recovers", "standing_transit", "standing_steps", "seated"]],
  ])("at %d m/s²", (retardation_mps2, passed) => {
    const plan = textbookPlan(
      { mass_kg: MASS_kg, track: level(40), length_m: 10, winding_ohm: 1 },
      { brakes: [{ rail_force_N: retardation_mps2 * MASS_kg }] },
    );
    const answer = brakes({ ...plan, speed_mps: 2.2352, lever: Number.NaN });
    const over = answer.deceleration_limits.filter(({ exceeded_by }) => exceeded_by.includes("all"));
    expect(over.map(({ code }) => code)).toEqual(passed);
    expect(answer.deceleration_limits.find(({ code }) => code === "seated")?.limit_mps2).toBeCloseTo(3.53, 2);
    expect(8 * FOOT_m).toBeCloseTo(2.44, 2);
  });
});
