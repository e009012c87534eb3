import { describe, expect, it } from "vitest";
import type { PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { LOCO, PLAN } from "../support/club.js";
import { level } from "../support/profiles.js";

type Resisting = NonNullable<(typeof LOCO)["resistance"]>;
type Car = Partial<NonNullable<PlanDefinition["cars"]>[number]>;

/** What loco and car roll at and start at. */
function vehicles(resistance: Resisting, car: Car = {}) {
  const cars = [{ mass_kg: 60, length_m: 1.8, seats: 3, ...car }];
  const { train } = createPlan({ ...PLAN, passengers: 0, cars }, { ...LOCO, resistance }, level(500));
  return train.vehicles.map(({ resistance: { rolling, breakaway } }) => ({ rolling, breakaway }));
}

describe("bearings", () => {
  // W. L. Webb, Railroad Construction, p. 594: 6 lb a short ton to run, 20 to start.
  it("plain: Webb's 20 lb a ton to start where 6 keep it rolling", () => {
    const [loco] = vehicles({ bearings: "plain", rolling: 6 / 2000 });
    expect(loco!.breakaway).toBeCloseTo(20 / 2000, 12);
  });

  it("ball unless told, and half as much again to start", () => {
    expect(vehicles({})[0]).toEqual({ rolling: 0.01, breakaway: 0.015 });
    expect(vehicles({ rolling: 0.008 })[0]!.breakaway).toBeCloseTo(0.012, 12);
  });

  it("plain ones roll harder too, and more than three times that to start", () => {
    const [loco, car] = vehicles({ bearings: "plain" });
    expect(loco!.rolling).toBe(0.015);
    expect(loco!.breakaway / loco!.rolling).toBeCloseTo(20 / 6, 12);
    expect(car).toEqual(loco);
  });

  it("what is given counts, whatever the bearings", () => {
    expect(vehicles({ bearings: "plain", rolling: 0.012, breakaway: 0.02 })[0]).toEqual({
      rolling: 0.012,
      breakaway: 0.02,
    });
  });

  it("beyond what their kind has are warned of by the low end of the doubt, since stops are judged by it", () => {
    const warned = (resistance: Resisting, car: Car = {}, half?: number) => {
      const cars = [{ mass_kg: 60, length_m: 1.8, seats: 3, ...car }];
      const doubts = half === undefined ? {} : { "loco.resistance.rolling": { spread: "normal" as const, half } };
      const plan = createPlan({ ...PLAN, passengers: 0, cars }, { ...LOCO, resistance }, level(500), { doubts });
      return plan.notes.warnings.filter(({ code }) => code === "rolls_stiffly");
    };
    // The ranges are the key table's: 0.008 to 0.012 with ball bearings, 0.012 to 0.020 with plain (common practice, no source).
    expect(warned({ bearings: "ball", rolling: 0.0221 }, {}, 0.003)).toEqual([
      {
        code: "rolls_stiffly",
        path: "loco.resistance.rolling",
        message: expect.stringMatching(
          /^0\.0221, 0\.0191 at its low end, is more than ball bearings have .*stop later/,
        ),
      },
    ]);
    expect(warned({ rolling: 0.0121 })[0]?.message).toContain("ball bearings (assumed, no kind is told)");
    expect(warned({ rolling: 0.013 }, {}, 0.002)).toEqual([]);
    expect(warned({ rolling: 0.012 })).toEqual([]);
    expect(warned({})).toEqual([]);
    expect(warned({ bearings: "plain", rolling: 0.02 })).toEqual([]);
    expect(warned({ bearings: "plain" }, { rolling: 0.02 })).toEqual([]);
    expect(warned({}, { rolling: 0.02 }).map(({ path }) => path)).toEqual(["plan.cars.1.rolling"]);
    expect(warned({ bearings: "plain" }, { bearings: "ball", rolling: 0.02 })).toHaveLength(1);
  });

  it("cars are as the loco, or by their own bearings or rolling where these are told", () => {
    const [, plain] = vehicles({ rolling: 0.008, breakaway: 0.02 }, { bearings: "plain" });
    expect(plain).toEqual({ rolling: 0.015, breakaway: 0.05 });
    const [, ball] = vehicles({ bearings: "plain", rolling: 0.02 }, { bearings: "ball" });
    expect(ball).toEqual({ rolling: 0.01, breakaway: 0.015 });
    const [, own] = vehicles({ bearings: "plain" }, { rolling: 0.012 });
    expect(own!.breakaway).toBeCloseTo(0.04, 12);
    const [, like] = vehicles({ rolling: 0.008, breakaway: 0.02 });
    expect(like).toEqual({ rolling: 0.008, breakaway: 0.02 });
  });
});
