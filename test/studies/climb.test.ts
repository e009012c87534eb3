import { describe, expect, test } from "vitest";
import { motion } from "../../packages/sim-core/src/motion.js";
import type { PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import * as at from "../../packages/sim-core/src/state.js";
import { climb, hot } from "../../packages/sim-core/src/studies/climb/climb.js";
import { startWorking } from "../../packages/sim-core/src/working.js";
import { clubPlan } from "../support/club.js";
import { hill, slope } from "../support/profiles.js";

const G_mps2 = 9.80665;

const table = (sine: number, plan: Partial<PlanDefinition> = {}) => {
  const { lever: _, ...rest } = { lever: 1, speed_mps: 1.5, ...plan };
  const columns = hill(sine, 600);
  return climb(clubPlan(columns, rest), (passengers) => clubPlan(columns, { ...rest, passengers }), 6);
};

describe("the load table", () => {
  // Statics by hand, no part of the program: loco 140 kg and driver 80 kg on two driven axles, two cars of 60 kg,
  // passengers of 75 kg, grip 0.25 dry, 0.15 wet; 0.015 of the weight to start. The slope's cosine is worth 2e-4 here.
  test.each(["dry", "wet"] as const)("restarts on what grip leaves over, %s rail", (rail) => {
    const grip_N = { dry: 0.25, wet: 0.15 }[rail] * 220 * G_mps2;
    for (const row of table(0.01, { track: { rail } }).rows) {
      const mass_kg = 340 + 75 * row.passengers;
      expect(row.train_mass_kg).toBeCloseTo(mass_kg, 9);
      if (row.limited_by !== "adhesion") continue;
      const byHand = 100 * (grip_N / (mass_kg * G_mps2) - 0.015);
      expect(row.restart_gradient_percent / byHand).toBeCloseTo(1, 2);
      expect(row.running_gradient_percent).toBeGreaterThan(row.restart_gradient_percent);
    }
  });

  test("more aboard never climb steeper, and a hot motor never more than a cold one", () => {
    const { rows } = table(0.02);
    for (const [i, row] of rows.entries()) {
      expect(row.restart_gradient_hot_percent).toBeLessThanOrEqual(row.restart_gradient_percent + 1e-9);
      if (i > 0) expect(row.restart_gradient_percent).toBeLessThan(rows[i - 1]!.restart_gradient_percent);
    }
  });

  // Derived: on the gradient that it just keeps its speed on, full lever neither gains nor loses it.
  test.each([1.2, 2.2])("keeps its speed of %d m/s on just what the table says, cold and hot", (speed_mps) => {
    const { rows } = table(0.02, { speed_mps });
    let compared = 0;
    for (const row of rows) {
      expect(row.running_at_speed_gradient_percent!).toBeLessThan(row.running_gradient_percent);
      for (const [percent, degC, case_degC] of [
        [row.running_at_speed_gradient_percent!, 15, 15],
        [row.running_at_speed_gradient_hot_percent!, 130, Number.NaN],
      ] as const) {
        const columns = hill(percent / 100, 600);
        const plan = clubPlan(columns, { speed_mps, passengers: row.passengers });
        const w = startWorking(plan, { chainage_m: 100, speed_mps });
        w.lever = 1;
        w.mode.powered = true;
        w.y[at.WINDING] = degC;
        w.y[at.CASE] = Number.isNaN(case_degC) ? hot(plan).case_degC : case_degC;
        motion(w, new Float64Array(at.SIZE), w.y, 0);
        if (Math.abs(w.now.contact_N) > w.now.staticGrip_N * (1 + 1e-9)) continue;
        expect(Math.abs(w.now.acceleration_mps2)).toBeLessThan(1e-9);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(5);
  });

  test("says nothing of a speed where a lever is held", () => {
    const plan = clubPlan(hill(0.02, 600), { lever: 0.8 });
    expect(climb(plan, () => plan, 0).rows[0]!.running_at_speed_gradient_percent).toBeNull();
  });

  // The driver keeps 2 % of the grip in hand, so the run may refuse what statics would just allow, and nothing else.
  test("what restarts here when run is what statics allow, but for the grip kept in hand", () => {
    const answer = table(0.03);
    const ruling = answer.ruling_gradient_compensated_percent;
    expect(answer.passengers_it_can_restart).not.toBeNull();
    for (const row of answer.rows) {
      const spare = row.restart_gradient_percent / ruling;
      if (spare > 1.06) expect(row.restarts_here, `${row.passengers}`).toBe(true);
      if (spare < 1) expect(row.restarts_here, `${row.passengers}`).toBe(false);
    }
  });

  test("a line that falls all the way out is climbed on the way back", () => {
    const columns = slope(-0.02, 300);
    const line = { speed_mps: 1.5, track: { kind: "end-to-end" as const } };
    const answer = climb(clubPlan(columns, line), (passengers) => clubPlan(columns, { ...line, passengers }), 6);
    expect(answer.ruling_gradient_percent).toBeCloseTo(2, 9);
    expect(answer.rows.at(-1)!.restarts_here).toBe(false);
  });

  test("with no car it is the loco alone", () => {
    const columns = hill(0.02, 600);
    const alone = clubPlan(columns, { cars: [], passengers: 0, speed_mps: 1 });
    expect(climb(alone, () => alone, 0).rows).toHaveLength(1);
  });
});
