import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chooseStep_s } from "../../packages/sim-core/src/loop/step.js";
import { type Summary, summariser } from "../../packages/sim-core/src/record/summary.js";
import { run } from "../../packages/sim-core/src/run.js";
import { createPlan, type Plan } from "../../packages/sim-core/src/train/plan.js";
import { startWorking } from "../../packages/sim-core/src/working.js";
import { anyParts } from "../support/arbitrary.js";
import { CIRCUIT, clubPlan, LOCO } from "../support/club.js";
import { textbookPlan } from "../support/textbook.js";

// Law: the extremes that protection is judged by are those of the train, whatever the step: a current leaps as the lever
// moves, has its cusp where one limit takes over from another, and falls from either before a step is over.

function extremes(plan: Plan, step_s: number): Summary & { kinds: string } {
  const { observer, summary } = summariser();
  const w = run(plan, { step_s, observers: [observer] });
  return { ...summary, kinds: w.events.map(({ kind }) => kind).join(" ") };
}

const FIGURES = [
  "peak_motor_current_A",
  "peak_battery_current_A",
  "lowest_battery_voltage_V",
  "peak_adhesion_used",
] as const;

function expectAlike(plan: Plan, step_s: number): boolean {
  const [coarse, fine] = [extremes(plan, step_s), extremes(plan, step_s / 5)];
  if (coarse.kinds !== fine.kinds) return false;
  for (const figure of FIGURES)
    expect(Math.abs(coarse[figure] - fine[figure]), figure).toBeLessThanOrEqual(0.005 * Math.abs(fine[figure]));
  return true;
}

describe("the greatest current", () => {
  // Derived: a motor that stands takes V/R the moment its circuit closes; with all constants 1 and 24 V behind 0.1 ohm,
  // 240 A. A train of 20 kg has lost nine tenths of that within half a second.
  it.each([0.1, 0.05, 0.0125])("of a lever thrown open is that of the standing motor, at a step of %d s", (step_s) => {
    const plan = textbookPlan({ mass_kg: 20, battery_V: 24, winding_ohm: 0.1, pull_N: 1000, duration_s: 1 });
    const { peak_motor_current_A, peak_battery_current_A } = extremes(plan, step_s);
    expect(peak_motor_current_A).toBeCloseTo(240, 9);
    expect(peak_battery_current_A).toBeCloseTo(240, 9);
  });

  // Derived: held to 100 A, the duty rises with the speed until it meets the lever's: there the battery gives D I. With all
  // constants 1, no losses but the winding's and the lever at 0.5, that is 0.5 × 100 A at any step.
  it.each([0.1, 0.05, 0.0125])(
    "of the battery is where the limit gives way to the lever, at a step of %d s",
    (step_s) => {
      const book = { mass_kg: 100, battery_V: 24, winding_ohm: 0.1, pull_N: 100, duration_s: 6 };
      const plan = { ...textbookPlan(book), lever: 0.5 };
      const { peak_motor_current_A, peak_battery_current_A } = extremes(plan, step_s);
      expect(peak_motor_current_A).toBeCloseTo(100, 9);
      expect(Math.abs(peak_battery_current_A / 50 - 1)).toBeLessThan(0.002);
    },
  );
});

describe("at any step", () => {
  it.each([
    ["a lever held", clubPlan(CIRCUIT, { lever: 0.9 })],
    ["driven to a speed", clubPlan(CIRCUIT, { speed_mps: 1.8 })],
    ["slipping on a greasy rail", clubPlan(CIRCUIT, { lever: 0.7, track: { rail: "greasy" } })],
    ["without a ramp", clubPlan(CIRCUIT, { lever: 0.8 }, { controller: { ...LOCO.controller, ramp_s: 0 } })],
  ])("%s: the extremes agree to half a percent", (_, plan) => {
    expect(expectAlike(plan, 0.05)).toBe(true);
  });

  it("so they do of any train", () => {
    let compared = 0;
    fc.assert(
      fc.property(anyParts, ({ columns, plan, loco }) => {
        const ready = createPlan({ ...plan, duration_s: 30 }, loco, columns);
        if (expectAlike(ready, chooseStep_s(startWorking(ready)))) compared++;
      }),
      { seed: 5, numRuns: 50 },
    );
    // Where a step decides whether something happens at all, the rest is another story.
    expect(compared).toBeGreaterThan(40);
  });
});

it("a train that never leaves has its extremes at that instant, and not none", () => {
  const plan = clubPlan(CIRCUIT, { lever: 0.01 }, { controller: { ...LOCO.controller, ramp_s: 0 } });
  const { observer, summary } = summariser();
  const w = run(plan, { observers: [observer] });
  expect([w.outcome, w.time_s]).toEqual(["stalled", 0]);
  expect(summary.peak_winding_temperature_C).toBe(15);
  expect(summary.peak_motor_current_A).toBeGreaterThan(0);
  expect(summary.lowest_battery_voltage_V).toBeGreaterThan(24);
});

it("wheels that slip have used all their grip, however they came to", () => {
  const plan = clubPlan(
    CIRCUIT,
    { lever: 1, track: { rail: "greasy" } },
    { controller: { ...LOCO.controller, ramp_s: 0 } },
  );
  const { peak_adhesion_used, least_margins } = extremes(plan, 0.05);
  expect(peak_adhesion_used).toBeGreaterThanOrEqual(1);
  expect(least_margins.grip_N?.value).toBeLessThanOrEqual(0);
});
