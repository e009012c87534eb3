import { describe, expect, test } from "vitest";
import { InputError } from "../../packages/sim-core/src/errors.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { ballast } from "../../packages/sim-core/src/studies/ballast/ballast.js";
import { levellingShare } from "../../packages/sim-core/src/studies/ballast/loads.js";
import { climb } from "../../packages/sim-core/src/studies/climb/climb.js";
import { madePlan } from "../../packages/sim-core/src/train/plan.js";
import { CIRCUIT, LOCO, PLAN } from "../support/club.js";

const { lever: _, ...held } = PLAN;
const plan: PlanDefinition = {
  ...held,
  speed_mps: 1.2,
  cars: [{ mass_kg: 60, length_m: 1.8, seats: 4, count: 4, wheelset_inertia_kgm2: 0.004 }],
};
const heights = { coupling_height_m: 0.15, gravity_height_m: 0.25, wheelbase_m: 0.6 };
const loco = (over: Partial<LocoDefinition> = {}): LocoDefinition => ({
  ...LOCO,
  battery: { chemistry: "lead-acid", in_series: 2, each: { voltage_V: 12, capacity: { capacity_C: 15 * 3600 } } },
  brakes: [{ rail_force_N: 250 }],
  ...over,
});
const asked = (passengers: number, over: Partial<LocoDefinition> = {}, rail?: "dry" | "wet" | "greasy") =>
  ballast({ plan, loco: loco(over), track: CIRCUIT }, { passengers, ...(rail && { rail }) });
const driven = (driven_end: "front" | "rear", more = {}) => ({
  wheels: { ...LOCO.wheels, driven_axles: 1, driven_end, ...more },
});

describe("ballast", () => {
  const wanted = asked(10, { wheels: { ...LOCO.wheels, ...heights } });

  test("is none where the train restarts without, as climb has it", () => {
    const few = asked(1);
    expect(few).toMatchObject({ restarts_without: true, with_ballast: null });
    expect(few.places[0]).toMatchObject({ ballast_kg: 0, limited_by: null });
    const planFor = (passengers: number) =>
      madePlan({ ...plan, passengers, track: { kind: "circuit", rail: "wet" } }, loco(), CIRCUIT);
    const most = climb(planFor(0), planFor, 16).passengers_it_can_restart!;
    expect(asked(most).restarts_without).toBe(true);
    expect(asked(most + 1).restarts_without).toBe(false);
  });

  test("restarts the train, and a few kilograms less do not", () => {
    const { ballast_kg } = wanted.places[0]!;
    expect(wanted.restarts_without).toBe(false);
    expect(ballast_kg).toBeGreaterThan(0);
    const heavier = (more_kg: number) =>
      asked(10, { wheels: { ...LOCO.wheels, ...heights }, mass_kg: LOCO.mass_kg + more_kg }).restarts_without;
    expect(heavier(ballast_kg!)).toBe(true);
    expect(heavier(ballast_kg! - 2)).toBe(false);
  });

  test("costs laps, energy, heat and axle load", () => {
    const { without, with_ballast } = wanted;
    const { ballast_kg } = wanted.places[0]!;
    expect(with_ballast!.loco_mass_kg - without.loco_mass_kg).toBeCloseTo(ballast_kg!, 9);
    expect(with_ballast!.train_mass_kg - without.train_mass_kg).toBeCloseTo(ballast_kg!, 9);
    expect(with_ballast!.laps_to_reserve).toBeLessThanOrEqual(without.laps_to_reserve);
    expect(with_ballast!.energy_per_lap_Wh).toBeGreaterThan(without.energy_per_lap_Wh!);
    expect(with_ballast!.peak_winding_temperature_C).toBeGreaterThan(without.peak_winding_temperature_C);
    expect(with_ballast!.heaviest_end_kg).toBeGreaterThan(without.heaviest_end_kg);
    expect(with_ballast).toMatchObject({ stop_by: "driver", stop_rail: "wet" });
  });

  test("stands, with all axles driven, where both ends carry alike as it starts", () => {
    const [best, midway] = wanted.places;
    expect(wanted).toMatchObject({ all_driven: true, leading_end: "front", front_share_assumed: true });
    expect(best!.ballast_kg).toBe(midway!.ballast_kg);
    expect(best!.starting!.front_kg).toBeCloseTo(best!.starting!.rear_kg, 6);
    expect(best!.front_share).toBeGreaterThan(0.5);
    expect(midway!.starting!.front_kg).toBeLessThan(midway!.standing.front_kg);
  });

  test.each(["front", "rear"] as const)("goes over the driven axle, at the %s: further off it takes more", (end) => {
    const { places } = asked(3, driven(end, heights));
    const amounts = places.map(({ ballast_kg }) => ballast_kg!);
    expect(places.map(({ front_share }) => front_share)).toEqual(end === "front" ? [1, 0.75, 0.5] : [0, 0.25, 0.5]);
    expect(amounts).toEqual([...amounts].sort((a, b) => a - b));
    expect(amounts[0]).toBeLessThan(amounts[1]!);
    for (const { standing, starting, ballast_kg } of places) {
      const body_kg = LOCO.mass_kg + 80 + ballast_kg!;
      expect(standing.front_kg + standing.rear_kg).toBeCloseTo(body_kg, 9);
      expect(starting!.front_kg + starting!.rear_kg).toBeCloseTo(body_kg, 9);
    }
  });

  test("a leading driven axle wants more of it than a trailing one", () => {
    const [front, rear] = (["front", "rear"] as const).map(
      (end) => asked(3, driven(end, heights)).places[0]!.ballast_kg!,
    );
    expect(front).toBeGreaterThan(rear!);
  });

  test("helps nothing where the motor is what is short", () => {
    const weak = { controller: { ...LOCO.controller, motor_current_limit_A: 25 } };
    const answer = asked(16, weak, "dry");
    expect(answer.places.map(({ ballast_kg }) => ballast_kg)).toEqual([null]);
    expect(answer.places[0]!.limited_by).toBe("motor_current");
    expect(answer.with_ballast).toBeNull();
  });

  test("has no loads as it starts without the loco's heights", () => {
    expect(asked(10).places.every(({ starting }) => starting === null)).toBe(true);
  });
});

test("where both ends are to carry alike, the place stays between the axles", () => {
  expect(levellingShare(200, 0.5, 50, 0)).toBe(0.5);
  expect(levellingShare(200, 0.5, 10, 1000)).toBe(1);
  expect(levellingShare(200, 0.5, 10, -1000)).toBe(0);
  expect(levellingShare(200, 0.4, 100, 0)).toBeCloseTo(0.7, 12);
  expect(levellingShare(200, 0.4, 0, 0)).toBe(0.5);
});

test("what cannot be used is told with its place", () => {
  const problems = (ask: () => unknown) => {
    try {
      ask();
    } catch (error) {
      return error instanceof InputError ? error.problems.map(({ path }) => path) : [String(error)];
    }
    return [];
  };
  expect(problems(() => asked(-1))).toEqual(["options.passengers"]);
  expect(problems(() => asked(3, {}, "snowy" as "wet"))).toEqual(["options.rail"]);
  const nowhere = { ...plan, cars: [] };
  expect(problems(() => ballast({ plan: nowhere, loco: loco(), track: CIRCUIT }, { passengers: 2 }))).toEqual([
    "plan.passengers",
  ]);
});
