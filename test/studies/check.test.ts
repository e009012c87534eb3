import { describe, expect, it } from "vitest";
import { check } from "../../packages/sim-core/src/studies/check/check.js";
import { climb } from "../../packages/sim-core/src/studies/climb/climb.js";
import { CIRCUIT, clubPlan } from "../support/club.js";
import { profile, slope } from "../support/profiles.js";

const line = { speed_mps: 1.5, track: { kind: "end-to-end" as const } };

describe("gradients as check tells them", () => {
  it("a line that climbs all the way out falls all the way back", () => {
    const answer = check(clubPlan(slope(1 / 60, 300), line));
    expect(answer.ruling_gradient.gradient_percent).toBeCloseTo(100 / 60, 9);
    expect(answer.ruling_gradient.direction).toBe("out");
    expect(answer.steepest_descent.gradient_percent).toBeCloseTo(-100 / 60, 9);
    expect(answer.steepest_descent.direction).toBe("back");
    expect(answer.climb_per_lap_m).toBeCloseTo(300 / 60, 9);
  });

  // Steepest the way back, between 100 m and 140 m, where the whole train of 5.2 m finds room: its head comes down to 100 m.
  it("the ruling gradient is that of climb, wherever and whichever way it is met", () => {
    const columns = profile([
      [0, 0],
      [100, 1],
      [140, 0.2],
      [200, 0.2],
    ]);
    const plan = clubPlan(columns, line);
    const answer = check(plan);
    const table = climb(plan, () => plan, 0);
    expect(answer.ruling_gradient.gradient_percent).toBeCloseTo(2, 9);
    expect(answer.ruling_gradient.gradient_percent).toBe(table.ruling_gradient_percent);
    expect(answer.ruling_gradient_compensated.gradient_percent).toBe(table.ruling_gradient_compensated_percent);
    expect(answer.ruling_gradient.chainage_m).toBe(table.ruling_gradient_at_m);
    expect(answer.ruling_gradient.direction).toBe("back");
    expect(answer.ruling_gradient.chainage_m).toBeGreaterThanOrEqual(100);
    expect(answer.ruling_gradient.chainage_m).toBeLessThanOrEqual(140);
    expect(answer.climb_per_lap_m).toBeCloseTo(1 + 0.8, 9);
  });

  it("a circuit is run one way", () => {
    const answer = check(clubPlan(CIRCUIT, { speed_mps: 1.5 }));
    expect(answer.ruling_gradient.direction).toBe("out");
    expect(answer.steepest_descent.direction).toBe("out");
    expect(answer.steepest_descent.gradient_percent).toBeCloseTo(-2, 6);
    expect(answer.climb_per_lap_m).toBeCloseTo(1.0333333, 9);
  });
});
