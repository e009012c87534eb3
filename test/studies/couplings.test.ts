import { describe, expect, it } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { run } from "../../packages/sim-core/src/run.js";
import { couplings } from "../../packages/sim-core/src/studies/couplings/couplings.js";
import {
  brakeOf_N,
  couplingForce_N,
  madeUpPlaces,
  takenBy_N,
} from "../../packages/sim-core/src/studies/couplings/force.js";
import type { Plan } from "../../packages/sim-core/src/train/plan.js";
import type { Working } from "../../packages/sim-core/src/working.js";
import { CIRCUIT, clubPlan, LOCO, PLAN } from "../support/club.js";
import { hill, level } from "../support/profiles.js";

const [COACH] = PLAN.cars as NonNullable<PlanDefinition["cars"]>;
const THREE = [{ ...COACH, count: 3 }];
/** Brakes on every vehicle, a guard's on the last. */
const BRAKED: Partial<PlanDefinition> = {
  cars: [
    { ...COACH, count: 2, brakes: [{ rail_force_N: 60 }] },
    { ...COACH, count: 1, name: "Van", brakes: [{ rail_force_N: 150, by: "guard" }] },
  ],
};
const HAND: Partial<LocoDefinition> = { brakes: [{ rail_force_N: 150 }] };

/** Looks on at every step of a working. */
function each(plan: Plan, look: (w: Working, taken_N: Float64Array, places: readonly number[]) => void): void {
  const taken_N = new Float64Array(plan.train.vehicles.length);
  const see = (w: Working) => {
    const places = madeUpPlaces(w.train, w.plan.trains.get(w.aboard) ?? w.plan.train);
    takenBy_N(w, places, taken_N);
    look(w, taken_N, places);
  };
  const observer: Observer = { step: see, change: see, event() {} };
  run(plan, { observers: [observer] });
}

describe("what couplings carry and what the rail gives", () => {
  const plans: [string, Plan][] = [
    ["round a circuit with curves and hills", clubPlan(CIRCUIT, { cars: THREE })],
    ["braked on every vehicle", clubPlan(CIRCUIT, { ...BRAKED, speed_mps: 2 }, HAND)],
    [
      "propelled back along a line",
      clubPlan(CIRCUIT, { ...BRAKED, track: { kind: "end-to-end" }, speed_mps: 2 }, HAND),
    ],
    [
      "run round at the end of a line",
      clubPlan(CIRCUIT, { ...BRAKED, track: { kind: "end-to-end", at_ends: "run-round" }, speed_mps: 2 }, HAND),
    ],
    ["in a headwind", clubPlan(CIRCUIT, { track: { kind: "circuit", wind_mps: 3 } })],
  ];

  it.each(plans)("%s: the first coupling and the loco itself take all that the rail gives", (_, plan) => {
    let seen = 0;
    each(plan, (w, taken_N, places) => {
      const { mode, train, now } = w;
      if (mode.train === 0) return;
      seen++;
      const ahead = train.loco !== 0 ? -1 : 1;
      // What the loco takes stands in its own line: rolling, curves, gravity, inertia and brakes of its undriven wheels.
      const sum_N = taken_N[train.loco] + ahead * couplingForce_N(w, 1, taken_N, places);
      expect(Math.abs(sum_N - now.contact_N)).toBeLessThan(1e-6 * (1 + Math.abs(now.contact_N) + train.mass_kg));
    });
    expect(seen).toBeGreaterThan(100);
  });

  it.each(plans)("%s: from one coupling to the next it falls by what the vehicle between takes", (_, plan) => {
    each(plan, (w, taken_N, places) => {
      const { train, mode } = w;
      if (mode.train === 0) return;
      const ahead = train.loco !== 0;
      for (let coupling = 1; coupling < train.vehicles.length - 1; coupling++) {
        const between = ahead ? train.vehicles.length - 1 - coupling : coupling;
        const fall_N =
          couplingForce_N(w, coupling, taken_N, places) - couplingForce_N(w, coupling + 1, taken_N, places);
        expect(Math.abs(fall_N - (ahead ? -1 : 1) * taken_N[between])).toBeLessThan(1e-6 * train.mass_kg);
      }
    });
  });

  it("a train that stands on its own brakes pulls at nothing, and hangs on the loco by what they do not hold", () => {
    each(clubPlan(hill(0.02, 300), { ...BRAKED, laps: 1 }, HAND), (w, taken_N, places) => {
      if (w.mode.train !== 0 || w.time_s > 0) return;
      const held_N = places.slice(1).reduce((sum, place) => sum + brakeOf_N(w, place), 0);
      const gravity_N = taken_N.slice(1).reduce((sum, each_N) => sum + each_N, 0);
      expect(couplingForce_N(w, 1, taken_N, places)).toBeCloseTo(Math.max(0, gravity_N - held_N), 9);
    });
  });
});

describe("a train of equal cars on the level", () => {
  const free: Partial<LocoDefinition> = {
    resistance: { rolling: 0, breakaway: 0, rolling_per_speed_spm: 0, sliding_length_m: 0 },
  };
  const smooth = { cars: [{ ...COACH, count: 4, seats: 0 }], passengers: 0, drag_area_m2: 0 };
  const rows = couplings(clubPlan(level(60), { ...smooth, track: { kind: "end-to-end" } }, free)).rows;

  it("pulls at each coupling by the cars beyond it, all at one instant", () => {
    expect(rows.map(({ coupling }) => coupling)).toEqual([1, 2, 3, 4]);
    const [first] = rows;
    rows.forEach(({ pull }, i) => {
      expect(pull.force_N).toBeCloseTo((first.pull.force_N * (4 - i)) / 4, 6);
    });
    expect(new Set(rows.map(({ pull }) => pull.time_s)).size).toBe(1);
  });

  it("is pushed on the way back, where the loco is behind", () => {
    const [{ push, pull }] = rows;
    expect([pull.direction, push.direction]).toEqual(["out", "back"]);
    expect(push.force_N).toBeCloseTo(pull.force_N, -1);
  });

  it("is run into by its cars when only the loco brakes: by their share of all that moves", () => {
    const force_N = 100;
    const brakes = [{ rail_force_N: force_N }];
    // A drag that was not measured is not counted when stopping.
    const { no_load_current_A: _, ...nameplate } = LOCO.motor.nameplate as NonNullable<typeof LOCO.motor.nameplate>;
    const undragged = { ...free, brakes, motor: { ...LOCO.motor, nameplate } };
    const plan = clubPlan(level(100), { ...smooth, speed_mps: 2, track: { kind: "end-to-end" } }, undragged);
    const { rows: braked } = couplings(plan);
    const { train } = plan;
    braked.forEach(({ stop_push, stop_pull }, i) => {
      const beyond_kg = train.vehicles.slice(i + 1).reduce((sum, v) => sum + v.mass_kg + v.wheels_kg, 0);
      // Rotor and wheels are braked too.
      expect(stop_push?.force_N).toBeCloseTo((force_N * beyond_kg) / train.effective_kg, 6);
      // On the way back the loco is behind, and its brake pulls at them.
      expect(stop_pull?.force_N).toBeCloseTo(stop_push?.force_N ?? 0, 6);
      expect([stop_push?.direction, stop_pull?.direction]).toEqual(["out", "back"]);
      expect(stop_push?.brakes).toBe("loco");
    });
  });

  it("is pulled out by a guard's brake on its last car", () => {
    const cars = [
      { ...COACH, count: 3, seats: 0 },
      { ...COACH, name: "Van", count: 1, seats: 0, brakes: [{ rail_force_N: 100, by: "guard" as const }] },
    ];
    const plan = clubPlan(
      level(100),
      { ...smooth, cars, speed_mps: 2, track: { kind: "end-to-end", at_ends: "turn" } },
      free,
    );
    const { rows: braked } = couplings(plan);
    braked.forEach(({ stop_pull, beyond }) => {
      expect(stop_pull?.brakes).toBe("all");
      expect(stop_pull?.force_N).toBeGreaterThan(0);
      expect(stop_pull?.force_N).toBeLessThan(100);
      expect(beyond.at(-1)).toBe("Van");
    });
    // The nearer to the brake the more of the train it stops.
    const pulls = braked.map(({ stop_pull }) => stop_pull?.force_N ?? 0);
    expect(pulls).toEqual(pulls.toSorted((a, b) => a - b));
  });
});

describe("what is told", () => {
  const plan = clubPlan(CIRCUIT, { cars: THREE });
  const answer = couplings(plan);

  it("is the most of working, stops and a train held fast, and a factor on that", () => {
    for (const { pull, push, steady_N, with_jerks_N } of answer.rows) {
      expect(steady_N).toBe(Math.max(pull.force_N, push.force_N, answer.held_pull_N));
      expect(with_jerks_N).toBe(3 * steady_N);
    }
    expect(answer.jerk_source).toBe("common practice, no source");
    const twice = couplings(plan, { jerk_factor: 2 });
    expect(twice.rows[0].with_jerks_N).toBe(2 * twice.rows[0].steady_N);
    expect(() => couplings(plan, { jerk_factor: 0.5 })).toThrow(InputError);
  });

  it("held fast, the loco pulls with no more than dry rail grips", () => {
    expect(answer.held_pull_N).toBeCloseTo(Math.min(0.25 * 220 * 9.80665, answer.held_pull_N), 9);
    const strong = { controller: { ...LOCO.controller, motor_current_limit_A: 200, battery_current_limit_A: 500 } };
    expect(couplings(clubPlan(level(60), { track: { kind: "end-to-end" } }, strong)).held_pull_N).toBeCloseTo(
      0.25 * 220 * 9.80665,
      6,
    );
  });

  it("without brakes there is no stop to tell of, and a loco alone has no coupling", () => {
    for (const { stop_pull, stop_push } of answer.rows) expect([stop_pull, stop_push]).toEqual([null, null]);
    expect(couplings(clubPlan(CIRCUIT, { cars: [], passengers: 0 })).rows).toEqual([]);
  });
});
