import { describe, expect, it } from "vitest";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { continuousCurrent_A } from "../../packages/sim-core/src/studies/gears/steady.js";
import { runOnce } from "../../packages/sim-core/src/studies/once.js";
import { clubPlan, LOCO } from "../support/club.js";
import { hill, level } from "../support/profiles.js";

type Heat = NonNullable<LocoDefinition["motor"]["heat"]>;

/** A heavy train on the level, its motor at a third of its rated speed with some 23 A of its 26.7. */
const crawling: Partial<PlanDefinition> = { speed_mps: 0.7, passengers: 18, duration_s: 2 * 3600 };
const geared = (heat: Heat, gears: LocoDefinition["gears"] = [{ ratio: 10 }]) => ({
  motor: { ...LOCO.motor, heat },
  gears,
});
const toldOf = (plan: Partial<PlanDefinition>, heat: Heat, columns = level(400)) =>
  clubPlan(columns, plan, geared(heat)).notes.warnings.filter(({ code }) => code === "rating_at_low_speed");

describe("a motor that leans on its plate at walking pace", () => {
  it("is told of, with both ways to read the plate, and what to write", () => {
    const [told] = toldOf(crawling, { mass_kg: 6 });
    expect(told!.path).toBe("loco.motor.heat");
    expect(told!.message).toMatch(/of its rated speed.*rms.*26\.7 A on its plate.*cooling: fan/);
  });

  it("is not told of where the loco file says what the plate means", () => {
    const said = { mass_kg: 6, cooling: "still", continuous_for_s: 4 * 3600 } as const;
    expect(toldOf(crawling, said)).toEqual([]);
  });

  it("is not told of where it runs faster, or draws little", () => {
    expect(toldOf({ ...crawling, speed_mps: 1.5 }, { mass_kg: 6 })).toEqual([]);
    expect(toldOf({ ...crawling, passengers: 2 }, { mass_kg: 6 })).toEqual([]);
  });

  it("up and down a hill the mean square counts, not the mean", () => {
    const plan = { ...crawling, passengers: 12 };
    expect(toldOf(plan, { mass_kg: 6 })).toEqual([]);
    expect(toldOf(plan, { mass_kg: 6 }, hill(0.012, 400))).toHaveLength(1);
  });

  it("with a fan on its shaft gets too hot where in still air it does not", () => {
    const hottest = (heat: Heat) => runOnce(clubPlan(level(400), crawling, geared(heat))).peak_winding_temperature_C;
    const [still, fan] = [hottest({ mass_kg: 6, cooling: "still" }), hottest({ mass_kg: 6, cooling: "fan" })];
    expect(still).toBeLessThan(130);
    expect(fan).toBeGreaterThan(130);
  });

  it("stands its rated current at rated speed, and with a fan less at half of it", () => {
    const train = (cooling: "still" | "fan") => clubPlan(level(400), crawling, geared({ mass_kg: 6, cooling })).train;
    const rated_radps = LOCO.motor.nameplate!.speed_radps;
    for (const cooling of ["still", "fan"] as const) {
      expect(continuousCurrent_A(train(cooling))).toBeCloseTo(26.7, 6);
    }
    expect(continuousCurrent_A(train("still"), rated_radps / 2)).toBeCloseTo(26.7, 6);
    // Less of the cooling, and the drag's heat besides: less than the root of what is left of it.
    expect(continuousCurrent_A(train("fan"), rated_radps / 2)).toBeLessThan(26.7 * 0.93);
  });
});
