import { describe, expect, it } from "vitest";
import { motion } from "../../packages/sim-core/src/motion.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { startWorking } from "../../packages/sim-core/src/working.js";
import { coast, eventOf, pullUntil } from "../support/drivers.js";
import { hill, profile, sineOf } from "../support/profiles.js";
import { textbookPlan } from "../support/textbook.js";

// Textbook examples, all driven through the real loop. What a book prints is believed to half a unit of its last figure;
// where it takes g as 9.80 or 9.81 its figure is first carried over to 9.80665.
const G_mps2 = 9.80665;
const KMH = 1 / 3.6;
const STEP = { step_s: 0.05 };

/** Half a unit of the last of the significant figures. */
function expectPrinted(got: number, printed: number, significant: number) {
  const unit = 10 ** (Math.floor(Math.log10(Math.abs(printed))) + 1 - significant);
  expect(Math.abs(got - printed)).toBeLessThanOrEqual(unit / 2);
}

describe("steady acceleration (OpenStax, CC BY)", () => {
  // University Physics 1, section 3.4, "How far does a car go?": 30.0 m/s, 7.00 m/s² on dry concrete and 5.00 on wet,
  // reaction 0.500 s. Through the reaction the pull just meets the resistance.
  it.each([
    [7, 0, 64.3],
    [5, 0, 90.0],
    [7, 0.5, 79.3],
    [5, 0.5, 105],
  ])("stops from 30 m/s at %d m/s² after %d s", (retardation_mps2, reaction_s, printed_m) => {
    const A_N = 1000 * retardation_mps2;
    const w = run(textbookPlan({ mass_kg: 1000, A_N, pull_N: A_N }), {
      ...STEP,
      start: { speed_mps: 30 },
      driver: pullUntil(reaction_s),
    });
    expectPrinted(w.y[at.POSITION], printed_m, 3);
  });

  // College Physics 2e, section 2.5, freight train: 4.00 m/s, 0.0500 m/s² for 8.00 min, then -0.550 m/s².
  it("freight train: 28.0 m/s and 7.68 km, then 50.9 s and 713 m", () => {
    const mass_kg = 1e6;
    let top = { speed_mps: 0, along_m: 0 };
    const w = run(textbookPlan({ mass_kg, A_N: 0.55 * mass_kg, pull_N: 0.6 * mass_kg }), {
      ...STEP,
      start: { speed_mps: 4 },
      driver: (working) => {
        if (Math.abs(working.time_s - 480) < 1e-6) {
          top = { speed_mps: working.y[at.SPEED], along_m: working.y[at.POSITION] };
        }
        pullUntil(480)(working);
      },
    });
    expectPrinted(top.speed_mps, 28.0, 3);
    expectPrinted(top.along_m, 7680, 3);
    expectPrinted(eventOf(w, "at_rest").time_s - 480, 50.9, 3);
    expectPrinted(w.y[at.POSITION] - top.along_m, 713, 3);
  });

  // University Physics 1, chapter 8, 110 km/h at the foot of a hill: 47.6 m without loss; 750 kg that reach only 22.0 m up
  // 2.50° lost 1.88e5 J to 373 N.
  it.each([
    [0, 47.6, 0],
    [373, 22.0, 1.88e5],
  ])("coasts up a hill against %d N", (A_N, printed_m, printed_J) => {
    const sine = Math.sin((2.5 * Math.PI) / 180);
    const w = run(textbookPlan({ mass_kg: 750, A_N, track: hill(sine) }), {
      ...STEP,
      laps: 2,
      start: { speed_mps: 110 * KMH, chainage_m: 1 },
      driver: (working) => {
        coast(working);
        if (working.mode.train < 0) working.outcome = "completed";
      },
    });
    const along_m = eventOf(w, "at_rest").chainage_m - 1;
    expectPrinted(along_m * sine, printed_m, 3);
    if (A_N > 0) expectPrinted(A_N * along_m, printed_J, 3);
  });
});

describe("trains", () => {
  // Gupta and Singhal, Electric Drives, example 3.3, p. 35: 400 kN at 60 km/h, 5 N/kN, up 1 in 100 (as a sine), g 9.81:
  // 100 kW; power cut off it coasts 943.86 m.
  it("coasts 943.86 m up 1 in 100 from 60 km/h", () => {
    const weight_N = 400e3;
    const plan = textbookPlan({
      mass_kg: weight_N / G_mps2,
      A_N: 0.005 * weight_N,
      pull_N: 0.015 * weight_N,
      track: hill(0.01),
    });
    let power_W = 0;
    const w = run(plan, {
      ...STEP,
      start: { speed_mps: 60 * KMH, chainage_m: 100 },
      driver: (working) => {
        if (working.time_s > 0 && working.time_s < 10) power_W = working.now.contact_N * working.y[at.SPEED];
        pullUntil(10)(working);
        if (working.mode.train < 0) working.outcome = "completed";
      },
    });
    expect(power_W).toBeCloseTo(100e3, 3);
    const coasted_m = eventOf(w, "at_rest").chainage_m - 100 - 600 * KMH;
    expectPrinted(coasted_m * (G_mps2 / 9.81), 943.86, 5);
  });

  // US Army TR0603, paragraph 2.11: 36,000 lb of pull less 20 lb per ton of a 120 t engine, 0.80 for the weather, against
  // 7 lb a ton of rolling, 20 per 1 % of grade (1.5 %) and 0.8 per degree of curve (10°): 597.3 short tons. The pull of
  // that trailing load must come out of the sum of the forces. Degrees are of the arc: 5729.58 ft over the radius.
  it("a tonnage rating of 597.3 short tons", () => {
    const POUND_kg = 0.45359237;
    const rated_N = (36000 - 20 * 120) * 0.8 * POUND_kg * G_mps2;
    const mass_kg = 597.3 * 2000 * POUND_kg;
    const radius_m = (5729.58 / 10) * 0.3048;
    const w = startWorking(
      textbookPlan({
        mass_kg,
        A_N: (7 / 2000) * mass_kg * G_mps2,
        sliding_length_m: ((0.8 * 10) / 2000) * radius_m,
        kind: "end-to-end",
        track: profile([
          [0, 0, radius_m],
          [1000, 15],
        ]),
      }),
      { chainage_m: 500, speed_mps: 1 },
    );
    motion(w, new Float64Array(at.SIZE), w.y, w.time_s);
    expectPrinted(((w.now.gravity_N + w.now.rolling_N + w.now.curves_N) / rated_N) * 597.3, 597.3, 4);
  });

  // College Physics 2e, section 5.1 and University Physics 1, section 6.2: up 4.00° on friction 1.0, 0.7 and 0.1 with half
  // the weight on the driven wheels, and with all of it, at most 4.20, 2.74, -0.195 and 9.09, 6.16, 0.294 m/s² (g 9.80).
  it.each([
    [1, 0.5, 4.2],
    [0.7, 0.5, 2.74],
    [0.1, 0.5, -0.195],
    [1, 1, 9.09],
    [0.7, 1, 6.16],
    [0.1, 1, 0.294],
  ])("up 4° on friction %d with %d of the weight driven, at most %d m/s²", (adhesion, driven_share, printed) => {
    const angle = (4 * Math.PI) / 180;
    const grip_N = adhesion * driven_share * 1000 * G_mps2 * Math.cos(angle);
    const rotating_kg = 10;
    const most_mps2 = grip_N / 1000 - G_mps2 * Math.sin(angle);
    const pulling = (share: number) =>
      run(
        textbookPlan({
          mass_kg: 1000,
          rotating_kg,
          adhesion,
          driven_share,
          pull_N: share * (grip_N + rotating_kg * most_mps2),
          winding_ohm: 0.05,
          track: hill(sineOf(Math.tan(angle))),
          duration_s: 1,
        }),
        { ...STEP, start: { speed_mps: 10, chainage_m: 2 } },
      );
    const gripping = pulling(1 - 1e-6);
    expect(gripping.events.filter((event) => event.kind === "slips")).toEqual([]);
    expectPrinted(((gripping.y[at.SPEED] - 10) * 9.8) / G_mps2, printed, 3);
    expect(pulling(1 + 1e-6).events.some((event) => event.kind === "slips")).toBe(true);
  });
});
