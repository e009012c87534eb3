import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { motion } from "../../packages/sim-core/src/motion.js";
import { mirrored } from "../../packages/sim-core/src/parts/track.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { createPlan } from "../../packages/sim-core/src/train/plan.js";
import { reordered } from "../../packages/sim-core/src/train/rolling.js";
import { startWorking, type Working } from "../../packages/sim-core/src/working.js";
import { anyParts } from "../support/arbitrary.js";
import { clubPlan, LOCO } from "../support/club.js";
import { profile } from "../support/profiles.js";

/** The forces on a train whose head stands at a chainage. */
function forcesAt(w: Working, head_m: number, speed_mps: number) {
  w.y[at.POSITION] = head_m;
  w.y[at.SPEED] = speed_mps;
  w.mode.train = speed_mps > 0 ? 1 : -1;
  w.mode.rim = w.mode.train;
  motion(w, new Float64Array(at.SIZE), w.y, w.time_s);
  return { ...w.now };
}

describe("the mirrored line, the train turned end for end on it,", () => {
  it("mirrors gravity, and keeps curves and rolling", () => {
    fc.assert(
      fc.property(anyParts, fc.double({ min: 0, max: 1, noNaN: true }), ({ columns, plan, loco }, share) => {
        const made = createPlan({ ...plan, track: { ...plan.track, kind: "end-to-end", wind_mps: 0 } }, loco, columns);
        const { train, track } = made;
        const head_m = train.length_m + share * (track.length_m - train.length_m);
        const out = forcesAt(startWorking(made), head_m, 1);
        const order = train.vehicles.map((_, i) => i).reverse();
        const turned = { ...made, train: reordered(train, order, false), track: mirrored(track) };
        const back = forcesAt(startWorking(turned), track.length_m - head_m + train.length_m, -1);
        // Heights of some metres carry their rounding along, times the weight.
        const rounding_N = 1e-11 * train.mass_kg * 9.80665;
        expect(Math.abs(out.gravity_N + back.gravity_N)).toBeLessThan(rounding_N);
        expect(Math.abs(out.curves_N - back.curves_N)).toBeLessThan(rounding_N);
        expect(Math.abs(out.rolling_N + back.rolling_N)).toBeLessThan(rounding_N);
        expect(back.air_N).toBe(-out.air_N);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

/** A loco and a car alike in all that counts for the motion, a battery that never sags, a motor that never warms. */
const alike = (at_ends: "propel" | "run-round" | "turn", columns = SYMMETRIC) =>
  clubPlan(
    columns,
    {
      lever: 0.45,
      passengers: 0,
      cars: [{ mass_kg: 220, length_m: 1.6, axles: 0, sliding_length_m: 0.07 }],
      track: { kind: "end-to-end", at_ends },
    },
    {
      motor: {
        ...LOCO.motor,
        magnet: "none",
        heat: { winding_capacity_JpK: 1e12, case_capacity_JpK: 1e12, winding_to_case_KpW: 1, case_to_air_KpW: 1 },
      },
      controller: { ...LOCO.controller, ramp_s: 0 },
      // With a brake in reserve the driver coasts to the very end; without one the train rests short and draws up. This one brakes
      // next to nothing: neither half is to feel it.
      brakes: [{ rail_force_N: 1e-6 }],
      battery: {
        each: {
          voltage_V: 24,
          capacity: [{ capacity_C: 1e9 }],
          rested_voltage: [
            [0, 25],
            [1, 25],
          ],
          resistance_ohm: 0.01,
        },
      },
    },
  );

const SYMMETRIC = profile([
  [0, 0, 30],
  [25, 0.2],
  [45, 0.7, 20],
  [65, 0.7],
  [85, 0.2, 30],
  [110, 0],
]);

/** Times from each start to the rest that follows. */
const legs = (w: Working) => {
  const times = (kind: string) => w.events.filter((event) => event.kind === kind).map((event) => event.time_s);
  const starts = times("starts");
  return times("at_rest").map((rest_s, i) => rest_s - starts[i]);
};

describe("out and back", () => {
  // 1e-6 is the step's own error: bends fall otherwise within the steps.
  it.each(["propel", "run-round", "turn"] as const)("on a symmetric line, %s, both halves take as long", (at_ends) => {
    const w = run(alike(at_ends), { step_s: 0.0125 });
    expect(w.outcome).toBe("completed");
    const [out_s, back_s] = legs(w);
    expect(Math.abs(back_s / out_s - 1)).toBeLessThan(1e-6);
  });

  it("turned, the way back is the way out of the mirrored line", () => {
    const posts = [
      [0, 0],
      [30, 0.4, 20],
      [50, 0.3],
      [90, 0.9],
      [110, 0.7],
    ] as const;
    const back = [
      [0, 0.7],
      [20, 0.9],
      [60, 0.3, 20],
      [80, 0.4],
      [110, 0],
    ] as const;
    const [, back_s] = legs(run(alike("turn", profile(posts)), { step_s: 0.0125 }));
    const [out_s] = legs(run(alike("turn", profile(back)), { step_s: 0.0125 }));
    expect(Math.abs(back_s / out_s - 1)).toBeLessThan(1e-6);
  });

  it("propels back with the loco behind, runs it round, or turns it all", () => {
    const order = (at_ends: "propel" | "run-round" | "turn") => {
      const plan = clubPlan(SYMMETRIC, { lever: 0.45, track: { kind: "end-to-end", at_ends } });
      const seen = new Map<boolean, number>();
      run(plan, { observers: [{ step: (w) => seen.set(w.returning, w.train.loco), event: () => undefined }] });
      return [seen.get(false), seen.get(true)];
    };
    expect(order("propel")).toEqual([0, 2]);
    expect(order("run-round")).toEqual([0, 0]);
    expect(order("turn")).toEqual([0, 0]);
  });
});
