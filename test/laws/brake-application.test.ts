import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type Application,
  appliedAt,
  released,
  wantBrake,
} from "../../packages/sim-core/src/parts/brakes.application.js";
import type { Brake } from "../../packages/sim-core/src/parts/brakes.js";

describe("a brake's application", () => {
  const brake = (delay_s: number, buildUp_s: number): Brake => ({
    vehicle: 0,
    rim_N: 0,
    shaft_N: 0,
    axle_N: 1,
    axleWeight_N: 1,
    delay_s,
    buildUp_s,
    service: true,
    parking: true,
    by: "driver",
    onDeadMan: false,
  });

  it("never jumps, and never moves faster than it builds up, whatever is asked of it", () => {
    const wish = fc.record({
      after_s: fc.double({ min: 0, max: 1.5, noNaN: true }),
      share: fc.oneof(fc.constant(0), fc.constant(1), fc.double({ min: 0, max: 1, noNaN: true })),
    });
    const times = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(times, times, fc.array(wish, { minLength: 1, maxLength: 12 }), (delay_s, buildUp_s, wishes) => {
        const brakes = [brake(delay_s, buildUp_s)];
        const a: Application = released(brakes);
        let time_s = 0;
        for (const { after_s, share } of wishes) {
          const parts = 40;
          for (let i = 0; i < parts; i++) {
            const before = appliedAt(brakes, a, 0, time_s);
            time_s += after_s / parts;
            const moved = Math.abs(appliedAt(brakes, a, 0, time_s) - before);
            expect(moved).toBeLessThanOrEqual(after_s / parts / buildUp_s + 1e-12);
          }
          const before = appliedAt(brakes, a, 0, time_s);
          wantBrake(brakes, a, 0, share, time_s);
          expect(appliedAt(brakes, a, 0, time_s)).toBeCloseTo(before, 12);
        }
        time_s += delay_s + buildUp_s + 1e-9;
        expect(appliedAt(brakes, a, 0, time_s)).toBeCloseTo(wishes[wishes.length - 1].share, 9);
      }),
      { seed: 9, numRuns: 300 },
    );
  });

  it("serves its delay once: not again for a change of mind, but again after it has been let off", () => {
    const brakes = [brake(0.3, 0.6)];
    const a = released(brakes);
    const on = (time_s: number) => appliedAt(brakes, a, 0, time_s);
    wantBrake(brakes, a, 0, 0.5, 1);
    wantBrake(brakes, a, 0, 1, 1.2);
    expect(on(1.3)).toBe(0);
    expect(on(1.6)).toBeCloseTo(0.5, 12);
    wantBrake(brakes, a, 0, 0.2, 1.6);
    expect(on(1.66)).toBeCloseTo(0.4, 12);
    wantBrake(brakes, a, 0, 1, 1.66);
    expect(on(1.72)).toBeCloseTo(0.5, 12);
    wantBrake(brakes, a, 0, 0, 1.72);
    expect(on(2.02)).toBeCloseTo(0, 12);
    expect(on(2.1)).toBe(0);
    wantBrake(brakes, a, 0, 1, 3);
    expect(on(3.3)).toBe(0);
    expect(on(3.6)).toBeCloseTo(0.5, 12);
  });
});
