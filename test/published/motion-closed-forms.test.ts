import { describe, expect, it } from "vitest";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { coast, eventOf } from "../support/drivers.js";
import { hill, sineOf } from "../support/profiles.js";
import { type Textbook, textbookPlan } from "../support/textbook.js";

// Closed-form solutions of m v' = F - A - B v - C v², derived, not published: each figure below was worked out from the
// formula beside it and again by quadrature of the equation, which agreed to 2e-13. All go through the real loop. Speeds
// are 5, 8 and 10 mph. m is the mass that must be accelerated, 5 % of the standing mass of it rotating.
const G_mps2 = 9.80665;
const ROTATING = 1.05;
const train = (m: number) => ({ mass_kg: m / ROTATING, rotating_kg: m - m / ROTATING });

/** Smooth runs at the usual step: the integration is then true to about 1e-10, and a stop is landed on to 1e-9 s. */
const SMOOTH = 1e-9;
/** Where power takes over from pull the force bends inside a step: at a step of 2.5 ms that costs about 1e-8. */
const BENT = 1e-7;

function expectClose(got: number, expected: number, within: number) {
  expect(Math.abs(got / expected - 1)).toBeLessThan(within);
}

function expectCoast(book: Textbook, speed_mps: number, time_s: number, distance_m: number) {
  const w = run(textbookPlan(book), { step_s: 0.05, start: { speed_mps }, driver: coast });
  expectClose(eventOf(w, "at_rest").time_s, time_s, SMOOTH);
  expectClose(w.y[at.POSITION], distance_m, SMOOTH);
}

describe("coasting to rest", () => {
  // t = (m/√(AC)) atan(v √(C/A)), s = (m/2C) ln(1 + C v²/A)
  it.each([
    [630, 61.78, 0.55, 2.2352, 22.4642007755, 24.9236395254],
    [1260, 123.56, 0.8, 3.57632, 35.50998897, 62.653400969],
    [367.5, 17.16, 0.4, 4.4704, 84.0085097103, 175.677635295],
  ])("A + C v²: %d kg, %d N", (m, A_N, C_Ns2pm2, v, t, s) => expectCoast({ ...train(m), A_N, C_Ns2pm2 }, v, t, s));

  // With d = 4AC - B² and q = √|d|, d > 0: t = (2m/q) [atan((2Cv + B)/q) - atan(B/q)]
  // d < 0: t = (m/q) ln{(2Cv + B - q)(B + q) / [(2Cv + B + q)(B - q)]}; s = (m/2C) ln[(A + Bv + Cv²)/A] - (B/2C) t
  it.each([
    [630, 50, 8, 0.55, 2.2352, 23.7609440737, 25.0271142601],
    [1260, 90, 15, 0.8, 3.57632, 38.3846457, 62.5140185113],
    [367.5, 12, 9, 0.4, 4.4704, 57.4303017913, 94.9823134457],
  ])("A + B v + C v²: %d kg, %d N", (m, A_N, B_Nspm, C_Ns2pm2, v, t, s) =>
    expectCoast({ ...train(m), A_N, B_Nspm, C_Ns2pm2 }, v, t, s),
  );

  // t = (m/B) ln(1 + Bv/A), s = (m/B) [v - (A/B) ln(1 + Bv/A)]
  it.each([
    [630, 61.78, 10, 2.2352, 19.4548603109, 20.6254729992],
    [1260, 123.56, 20, 3.57632, 28.7730871663, 47.5480274864],
    [367.5, 17.16, 6, 4.4704, 57.649018165, 108.935808048],
  ])("A + B v: %d kg, %d N", (m, A_N, B_Nspm, v, t, s) => expectCoast({ ...train(m), A_N, B_Nspm }, v, t, s));
});

describe("under power", () => {
  /** Runs for a time under full lever and compares speed and distance. */
  function expectPull(
    book: Textbook,
    from_mps: number,
    time_s: number,
    v: number,
    s: number,
    step_s: number,
    within: number,
  ) {
    const w = run(textbookPlan({ ...book, duration_s: time_s }), { step_s, start: { speed_mps: from_mps } });
    expectClose(w.y[at.SPEED], v, within);
    expectClose(w.y[at.POSITION], s, within);
  }

  // t = m v²/2P, s = m v³/3P. From rest the pull would be without end: the run begins at a quarter of the speed, and what
  // the same formulas give up to there is taken off.
  it.each([
    [630, 500, 2.2352, 3.1475549952, 4.69027661685],
    [1260, 1200, 3.57632, 6.71478398976, 16.0094775188],
    [367.5, 750, 4.4704, 4.8961966592, 14.5919716969],
  ])("constant power, nothing resisting: %d kg, %d W", (m, power_W, v, t, s) =>
    expectPull({ ...train(m), power_W }, v / 4, t * (1 - 1 / 16), v, s * (1 - 1 / 64), 0.0125, BENT),
  );

  // Pull F up to v_b = P/F, then power P, against R. With l = ln[(P - Rv)/(P - R v_b)]:
  // t₂ = -(m/R)(v - v_b) - (mP/R²) l, s₂ = -(m/R) [(v² - v_b²)/2 + (P/R)(v - v_b) + (P/R)² l]
  it.each([
    [630, 400, 500, 61.78, 2.2352, 5.11088873083, 6.4677133338],
    [1260, 700, 1200, 123.56, 3.57632, 11.0077066043, 23.4964760079],
    [367.5, 500, 900, 17.16, 4.4704, 5.0209069728, 13.412599467],
  ])("constant pull, then constant power: %d kg, %d N", (m, pull_N, power_W, A_N, v, t, s) =>
    expectPull({ ...train(m), pull_N, power_W, A_N }, 0, t, v, s, 0.0025, BENT),
  );

  // s = (m/3C) ln[P/(P - C v³)], and with u³ = P/C
  // t = (m/3Cu) {½ ln[(u² + uv + v²)/(u - v)²] - √3 [atan((2v + u)/(√3 u)) - π/6]}; as above from a quarter of the speed.
  it.each([
    [630, 500, 0.55, 4.84364653076, 15.5829525414, 50.9847135475],
    [1260, 1200, 0.8, 4.57885697021, 11.3007197338, 34.7233963149],
    [367.5, 750, 0.4, 7.39863622299, 14.7560704974, 74.524791706],
  ])("constant power against C v²: %d kg, %d W", (m, power_W, C, v, t, s) => {
    const u = Math.cbrt(power_W / C);
    const time_s = (x: number) =>
      (m / (3 * C * u)) *
      (Math.log((u * u + u * x + x * x) / (u - x) ** 2) / 2 -
        Math.sqrt(3) * (Math.atan((2 * x + u) / (Math.sqrt(3) * u)) - Math.PI / 6));
    const way_m = (x: number) => (m / (3 * C)) * Math.log(power_W / (power_W - C * x ** 3));
    expectClose(time_s(v), t, 1e-11);
    expectClose(way_m(v), s, 1e-11);
    expectPull({ ...train(m), power_W, C_Ns2pm2: C }, v / 4, t - time_s(v / 4), v, s - way_m(v / 4), 0.0125, BENT);
  });

  // A motor on a steady voltage, F = F₀ (1 - v/v_n), against R: v∞ = v_n (1 - R/F₀), τ = m v_n/F₀,
  // v = v∞ (1 - e^(-t/τ)), s = v∞ t - v∞ τ (1 - e^(-t/τ))
  it.each([
    [630, 450, 3.2, 61.78, 6, 2.03728809814, 7.43700265365],
    [1260, 800, 4.5, 123.56, 10, 2.87688384466, 17.659835751],
    [367.5, 500, 5.5, 17.16, 5, 3.76941473757, 11.3183409234],
  ])("a motor on a steady voltage: %d kg, %d N", (m, stalled_N, free_mps, A_N, t, v, s) =>
    expectPull({ ...train(m), A_N, battery_V: free_mps, winding_ohm: free_mps / stalled_N }, 0, t, v, s, 0.05, SMOOTH),
  );
});

describe("on a slope", () => {
  // Runaway from rest: K = m g (sin θ - c cos θ), v_T = √(K/C), τ = m_e/√(KC), v(S) = v_T √(1 - e^(-2CS/m_e)),
  // t = τ atanh(v/v_T). Rolling is a share of the weight here, so that c cos θ is put in.
  it.each([
    [600, 0.008, 0.55, 0.02, 100, 4.53467694797, 42.8649193625],
    [1200, 0.008, 0.8, 0.0125, 150, 3.38815355873, 85.8373453212],
    [350, 0.005, 0.4, 0.03, 60, 5.12391514022, 22.9228698562],
  ])("a runaway: %d kg", (mass_kg, c, C_Ns2pm2, grade, way_m, v, t) => {
    const A_N = c * Math.cos(Math.atan(grade)) * mass_kg * G_mps2;
    const rotating_kg = (ROTATING - 1) * mass_kg;
    const track = hill(sineOf(grade));
    const plan = textbookPlan({ mass_kg, rotating_kg, A_N, C_Ns2pm2, track, duration_s: t });
    const w = run(plan, { step_s: 0.05, start: { chainage_m: 6000 }, driver: coast });
    expectClose(w.y[at.SPEED], v, SMOOTH);
    expectClose(w.y[at.RUN], way_m, SMOOTH);
  });

  // Power cut on one grade, rest on the next: v₁² = v₀² - 2 a₁ L, s₂ = v₁²/2a₂, a = g (c cos θ + sin θ)/1.05. A long
  // vehicle passes the post between them little by little, but its work against gravity is that of its middle. Here c is
  // a share of the weight on both grades: cos θ = 1 would be 0.99989 on the second, 5e-5 of s₂.
  it.each([
    [2.2352, 0.008, 0, 10, 0.015, 8.15168814151, true],
    [3.57632, 0.008, -0.01, 30, 0.02, 26.6022620827, true],
    [4.4704, 0.005, 0.01, 40, -0.002, 156.633963611, false],
  ])("from grade to grade at %d m/s", (v, c, first, length_m, second, s2, rollsBack) => {
    const mass_kg = 600;
    const [post_m, vehicle_m] = [1000, 1];
    const height_m = sineOf(first) * post_m;
    const columns = {
      distance_m: [0, post_m, 2 * post_m],
      height_m: [0, height_m, height_m + sineOf(second) * post_m],
      curvature_radpm: [0, 0, 0],
      limit_mps: [99, 99, 99],
      place: ["", "", ""],
    };
    const plan = textbookPlan({
      mass_kg,
      rotating_kg: 30,
      A_N: c * mass_kg * G_mps2,
      track: columns,
      kind: "end-to-end",
      length_m: vehicle_m,
    });
    const start = { speed_mps: v, chainage_m: post_m - length_m + vehicle_m / 2 };
    const w = run({ ...plan, duration_s: 200 }, { step_s: 0.05, start, driver: coast });
    expectClose(eventOf(w, "at_rest").chainage_m - vehicle_m / 2 - post_m, s2, 1e-4);
    expect(w.events.some((event) => event.kind === "rolls_back")).toBe(rollsBack);
  });
});
