import { describe, expect, it } from "vitest";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { bookStop, type Stop } from "../support/braking.js";
import { coast, eventOf } from "../support/drivers.js";
import { slope } from "../support/profiles.js";
import { type Textbook, textbookPlan } from "../support/textbook.js";

const G_mps2 = 9.80665;
const MPH_mps = 0.44704;
const FOOT_m = 0.3048;
const MASS_kg = 500;

function expectClose(got: number, expected: number, within: number) {
  expect(Math.abs(got / expected - 1), `${got} for ${expected}`).toBeLessThan(within);
}

/** A train that only its brake slows, at a retardation. */
const braked = (retardation_mps2: number, stop: Stop, book: Partial<Textbook> = {}) =>
  bookStop(
    { mass_kg: MASS_kg, ...book },
    [{ rail_force_N: retardation_mps2 * (MASS_kg + (book.rotating_kg ?? 0)), delay_s: 0 }],
    { atOnce: true, ...stop },
  );

describe("textbooks", () => {
  // OpenStax University Physics 1, 3.4, "How Far Does a Car Go?": 30.0 m/s, 7.00 and 5.00 m/s², reaction 0.500 s. Three
  // figures printed: half of the last is 0.6 % at most.
  it.each([
    [7, 0, 64.3],
    [5, 0, 90.0],
    [7, 0.5, 79.3],
    [5, 0.5, 105],
  ])("a car at 30 m/s braked at %d m/s² after %d s", (a, reaction_s, expected_m) =>
    expectClose(braked(a, { speed_mps: 30, reaction_s }).distance_m, expected_m, 0.006),
  );

  // OpenStax College Physics, 2.5: a light rail train at 80.0 km/h stops in 13.5 s at 1.65 m/s², in an emergency in 8.30 s
  // at 2.68 m/s²; a freight train at 28.0 m/s in 50.9 s and 713 m at 0.550 m/s². Three figures printed.
  it.each([
    [80 / 3.6, 1.65, 13.5, undefined],
    [80 / 3.6, 2.68, 8.3, undefined],
    [28, 0.55, 50.9, 713],
  ])("a train at %d m/s braked at %d m/s²", (speed_mps, a, expected_s, expected_m) => {
    const { time_s, distance_m } = braked(a, { speed_mps });
    expectClose(time_s, expected_s, 0.004);
    if (expected_m !== undefined) expectClose(distance_m, expected_m, 0.002);
  });

  // OpenStax University Physics 1, 6.4, "A Motorboat": resistance in proportion to speed takes 4.0 to 1.0 m/s in 10 s; all
  // in all it runs on 29 m (28.854 unrounded: v T/ln 4). Two figures printed; the unrounded one is met to 1e-6: after 150 s
  // a millionth of the speed is left.
  it("a resistance that grows with speed", () => {
    const B_Nspm = (MASS_kg * Math.log(4)) / 10;
    const at_s = (duration_s: number) =>
      run(textbookPlan({ mass_kg: MASS_kg, B_Nspm, duration_s }), { start: { speed_mps: 4 }, driver: coast }).y;
    expectClose(at_s(10)[at.SPEED], 1, 1e-7);
    expectClose(at_s(150)[at.RUN], 29, 0.0175);
    expectClose(at_s(150)[at.RUN], 40 / Math.log(4), 1e-6);
  });

  // OpenStax University Physics 1, chapter 8 problems: a 750 kg car coasts up a 2.5° hill from 110 km/h against 373 N and
  // rises 22.0 m, printed to 0.1 m; ours is along the hill.
  it("up a hill against a friction", () => {
    const sine = Math.sin((2.5 * Math.PI) / 180);
    const track = slope(sine, 2000);
    const w = run(textbookPlan({ mass_kg: 750, A_N: 373, track, kind: "end-to-end" }), {
      start: { speed_mps: 110 / 3.6 },
      driver: coast,
    });
    expectClose((eventOf(w, "at_rest").chainage_m - 1) * sine, 22.0, 0.05 / 22.0);
  });

  // J. B. Gupta & Singhal, Electric Drives, example 3.3, p. 35: 60 km/h, 5 N/kN, up 1 in 100, power cut: 943.86 m. Its g is
  // 9.81, 3.4e-4 from ours.
  it("power cut on a gradient", () => {
    const track = slope(0.01, 2000);
    const book = { mass_kg: MASS_kg, A_N: 0.005 * MASS_kg * G_mps2, track, kind: "end-to-end" } as const;
    const w = run(textbookPlan(book), { start: { speed_mps: 60 / 3.6 }, driver: coast });
    expectClose(eventOf(w, "at_rest").chainage_m - 1, 943.86, 4e-4);
  });

  // A detached wagon at 36 km/h up 5 % against 10 N/kN runs 85 m (sarthaks.com, question 510816; g 9.8, 85.03 unrounded).
  it("a wagon that breaks away", () => {
    const track = slope(0.05, 400);
    const book = { mass_kg: MASS_kg, A_N: 0.01 * MASS_kg * G_mps2, track, kind: "end-to-end" } as const;
    const w = run(textbookPlan(book), { start: { speed_mps: 10 }, driver: coast });
    expectClose(eventOf(w, "at_rest").chainage_m - 1, 85.03, 8e-4);
  });

  // R. Knight, Physics, problem 5.32, as answered twice: a locomotive of 180,000 kg, rolling friction 0.002: from 10 m/s
  // 510.2 s and 2551 m (g 9.8), from 22 m/s 1121.3 s (g 9.81).
  it.each([
    [10, 510.2, 2551],
    [22, 1121.3, undefined],
  ])("a locomotive that coasts from %d m/s", (speed_mps, expected_s, expected_m) => {
    const { time_s, distance_m } = bookStop({ mass_kg: 180_000, A_N: 0.002 * 180_000 * G_mps2 }, [], { speed_mps });
    expectClose(time_s, expected_s, 8e-4);
    if (expected_m !== undefined) expectClose(distance_m, expected_m, 8e-4);
  });

  // Sarkar, Theory of Machines, illustration 10.2, p. 269: a bicycle, 120 kg with its rider, at 16.2 km/h; the brake is
  // pressed on with 120 N, friction 0.06, wheels of 0.9 m: 168.75 m, 59.68 turns of the wheel (printed 168.8 and 59.7).
  it("a bicycle, from the hand to the rail", () => {
    const hand = { hand_force_N: 120, linkage_ratio: 1, linkage_efficiency: 1, block_friction: 0.06, delay_s: 0 };
    const { distance_m } = bookStop({ mass_kg: 120 }, [hand], { speed_mps: 16.2 / 3.6, atOnce: true });
    expectClose(distance_m, 168.75, 1e-6);
    expectClose(distance_m / (Math.PI * 0.9), 59.68, 1e-4);
  });

  // The same book, illustration 10.8, p. 274: a flywheel of 80 kg, radius of gyration 0.5 m, at 250 rpm; a band on a drum of
  // 0.32 m, wrap 260°, friction 0.23, pulled by 20 N on 0.35 m over 0.05 m: stops in 12.7 s. Three figures printed. The
  // band's torque is worked out here (tensions in the ratio e^(μθ)); the flywheel turns with the wheels of a weightless train.
  it("a flywheel, by a torque on its shaft", () => {
    const slack_N = (20 * 0.35) / 0.05;
    const torque_Nm = slack_N * (Math.exp((0.23 * 260 * Math.PI) / 180) - 1) * 0.16;
    const { time_s } = bookStop(
      { mass_kg: 1e-6, rotating_kg: 80 * 0.5 ** 2 },
      [{ torque_Nm, on: "axle", delay_s: 0 }],
      { speed_mps: (250 * Math.PI) / 30, atOnce: true },
    );
    expectClose(time_s, 12.7, 0.004);
  });

  // Khurmi & Gupta, Theory of Machines, example 3.5, p. 37: a road roller of 12 t at 9 km/h, its roller 2 t, radius of
  // gyration 0.4 m, 1.2 m across, its rear axle 2.5 t, 0.6 m, 1.5 m across, is stopped in 6 m: 7528.3 N printed, with rounded
  // turning speeds; 45 277.8 J and 7546.30 N reworked.
  it("a road roller with all that turns", () => {
    const rotating_kg = 2000 * (0.4 / 0.6) ** 2 + 2500 * (0.6 / 0.75) ** 2;
    const by = (rail_force_N: number) =>
      bookStop({ mass_kg: 12_000, rotating_kg }, [{ rail_force_N, delay_s: 0 }], { speed_mps: 2.5, atOnce: true });
    const { distance_m, w } = by(7546.3);
    expectClose(distance_m, 6, 1e-6);
    expectClose(w.y[at.BRAKES], 45_277.8, 2e-6);
    expectClose(by(7528.3).distance_m, 6, 3e-3);
  });
});

describe("wheels braked to the limit of their grip", () => {
  // T. Bevan, Theory of Machines, example 8.6, p. 264: wheelbase 9.5 ft, centre of gravity 2 ft high and 4 ft ahead of the
  // rear axle, 30 mph: rear wheels only, front only, all: 530, 699, 301 ft at 0.1; 97.5, 104, 50.1 ft at 0.6. Three figures
  // printed with g 32.2 ft/s²: half of the last is 0.5 % at most. The limit is looked for by running: the greatest force
  // under which no wheel slides.
  const [LENGTH_m, HEIGHT_m] = [9.5 * FOOT_m, 2 * FOOT_m];
  it.each([
    ["rear", 0.1, 5.5 / 9.5, 530],
    ["front", 0.1, 4 / 9.5, 699],
    ["all", 0.1, 1, 301],
    ["rear", 0.6, 5.5 / 9.5, 97.5],
    ["front", 0.6, 4 / 9.5, 104],
    ["all", 0.6, 1, 50.1],
  ])("%s, grip %d", (which, adhesion, driven_share, expected_ft) => {
    // The share of weight on an axle goes by how far the centre of gravity is from the other.
    const wheels = {
      diameter_m: 2,
      axles: 2,
      driven_axles: which === "all" ? 2 : 1,
      driven_share,
      wheelset_inertia_kgm2: 1e-6,
      wheelbase_m: LENGTH_m,
      coupling_height_m: HEIGHT_m,
      gravity_height_m: HEIGHT_m,
      ...(which === "all" ? {} : { driven_end: which as "front" | "rear" }),
    };
    const stop = (force_N: number) =>
      bookStop(
        { mass_kg: MASS_kg, adhesion, winding_ohm: 1e6 },
        [{ rail_force_N: force_N, braked_share: driven_share, delay_s: 0 }],
        { speed_mps: 30 * MPH_mps, atOnce: true },
        { wheels },
      );
    const slides = (force_N: number) => stop(force_N).w.events.some(({ kind }) => kind === "slips");
    let [holds_N, slides_N] = [0.01 * MASS_kg, MASS_kg * G_mps2];
    expect([slides(holds_N), slides(slides_N)]).toEqual([false, true]);
    while (slides_N - holds_N > 1e-4 * slides_N) {
      const middle_N = (holds_N + slides_N) / 2;
      if (slides(middle_N)) slides_N = middle_N;
      else holds_N = middle_N;
    }
    expectClose(stop(holds_N).distance_m / FOOT_m, expected_ft, 0.005);
  });
});

describe("statutes and manuals", () => {
  // American Samoa Code 22.1109: brakes must stop within these distances, all of them v²/2a with a = 11.6 ft/s². Printed to
  // 0.1 ft: up to 0.6 % of the shortest.
  it.each([
    [10, 9.3],
    [15, 20.8],
    [20, 37.0],
    [25, 58.0],
    [30, 83.3],
  ])("the brake law at %d mph", (mph, expected_ft) =>
    expectClose(braked(11.6 * FOOT_m, { speed_mps: mph * MPH_mps }).distance_m / FOOT_m, expected_ft, 0.006),
  );

  // TxDOT Roadway Design Manual 4.11.1: stopping sight distance, reaction 2.5 s, 11.2 ft/s². Printed from 1.47 for
  // 88/60 and 30 for 29.9: 0.3 %.
  it.each([
    [15, 76.7],
    [20, 111.9],
  ])("stopping sight distance at %d mph", (mph, expected_ft) =>
    expectClose(
      braked(11.2 * FOOT_m, { speed_mps: mph * MPH_mps, reaction_s: 2.5 }).distance_m / FOOT_m,
      expected_ft,
      0.003,
    ),
  );

  // New Jersey 39:3-68, at 20 mph: brakes on all wheels 30 ft or 14 ft/s², on some 45 ft or 9.5 ft/s². The statute's own
  // two figures differ by 3 %.
  it.each([
    [14, 30],
    [9.5, 45],
  ])("brakes of %d ft/s²", (ftps2, expected_ft) =>
    expectClose(braked(ftps2 * FOOT_m, { speed_mps: 20 * MPH_mps }).distance_m / FOOT_m, expected_ft, 0.03),
  );
});
