import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { anyParts, OUTCOMES } from "../support/arbitrary.js";
import { books, chargeMissed, watchLosses } from "../support/books.js";

describe("any train on any line", () => {
  // Gradients to 1 in 15 under couplings 1 m apart, runaways, wheels spun up within a tenth of a second. A millionth of a
  // joule is for runs that end as they begin.
  it("keeps its books, loses nothing twice, stays a number and comes to an end", () => {
    const ends = new Set<string>();
    fc.assert(
      fc.property(anyParts, ({ columns, plan, loco }) => {
        const { observer, shrunk } = watchLosses();
        let astray = 0;
        const look: Observer = {
          step(_w, _from_s, _from, all) {
            for (const margin of all) if (Number.isNaN(margin)) astray++;
          },
          event: () => undefined,
        };
        const w = run(createPlan({ ...plan, duration_s: 240 }, loco, columns), { observers: [observer, look] });
        const { residual_J, turnover_J } = books(w);
        ends.add(w.outcome ?? "none");
        expect(OUTCOMES).toContain(w.outcome);
        expect([...w.y].every(Number.isFinite)).toBe(true);
        expect(astray).toBe(0);
        expect(Math.abs(residual_J)).toBeLessThan(2e-6 * turnover_J + 1e-6);
        expect(chargeMissed(w)).toBeLessThan(1e-12);
        expect(shrunk).toEqual(new Set());
        expect(w.time_s).toBeLessThanOrEqual(240);
        expect(w.y[at.AVAILABLE]).toBeGreaterThan(-1e-6);
        expect(w.events.length).toBeLessThan(60);
      }),
      { seed: 20, numRuns: 120 },
    );
    // Else the trains drawn were all too much alike to show anything.
    expect(ends.size).toBeGreaterThan(4);
  });
});
