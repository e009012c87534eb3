import fc from "fast-check";
import { expect, it } from "vitest";
import { run } from "../../packages/sim-core/src/run.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import type { Working } from "../../packages/sim-core/src/working.js";
import { anyParts } from "../support/arbitrary.js";
import { clubPlan, LOCO } from "../support/club.js";
import { slope } from "../support/profiles.js";

const count = (w: Working, kind: string) => w.events.filter((event) => event.kind === kind).length;

// Law: who asks for no more than the rail grips is not for ever slipping: with the motor pulling, with the motor braking
// beside brakes on the same wheels, with weight moving off them as they pull. Where the line breaks under them they may
// slip once, and once more.
it("a driver to a speed does not slip again and again", () => {
  fc.assert(
    fc.property(anyParts, ({ columns, plan, loco }) => {
      const { lever: _, ...rest } = plan;
      const driven = { ...rest, speed_mps: plan.speed_mps ?? 1.5, duration_s: 240 };
      const w = run(createPlan(driven, loco, columns));
      const slips = w.events.filter((event) => event.kind === "slips").map((event) => event.time_s);
      for (let i = 3; i < slips.length; i++) expect(slips[i] - slips[i - 3]).toBeGreaterThan(5);
    }),
    { seed: 21, numRuns: 50 },
  );
});

// Law: brakes that hold a train until it is to go do not hinder it from going.
it.each([0, 2])("a train starts with brakes as it does without, ramp %d s", (ramp_s) => {
  const line = slope(0.01, 200);
  const controller = { ...LOCO.controller, ramp_s };
  for (const drive of [{ lever: 0.6 }, { speed_mps: 1.2 }] as const) {
    const plan = { ...drive, duration_s: 30, track: { kind: "end-to-end" } } as const;
    const without = run(clubPlan(line, plan, { controller }));
    const held = run(clubPlan(line, plan, { controller, brakes: [{ rail_force_N: 400, build_up_s: 0.5 }] }));
    expect([without.outcome, held.outcome]).toEqual(["completed", "completed"]);
    expect(held.y[0]).toBeGreaterThan(0.9 * without.y[0]);
    expect(count(held, "rolls_back")).toBe(0);
  }
});
