import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { driveDrag_N, grip_N } from "../../packages/sim-core/src/drive/pull.js";
import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import type { LocoDefinition, PlanDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { createPlan, type Plan } from "../../packages/sim-core/src/train/plan.js";
import { anyParts } from "../support/arbitrary.js";
import { clubPlan } from "../support/club.js";
import { profile } from "../support/profiles.js";

/** The speed as the head passes a post, the first time; and where it first ran slower than it had. */
function passing(plan: Plan, post_m: number): { speed_mps: number; slows_m: number } {
  const seen = { speed_mps: Number.NaN, slows_m: Number.NaN };
  let fastest_mps = 0;
  const step: Observer["step"] = ({ y }, _from_s, from) => {
    const [before_m, head_m] = [from[at.POSITION]!, y[at.POSITION]!];
    if (Number.isNaN(seen.slows_m) && y[at.SPEED]! < fastest_mps - 0.02) seen.slows_m = head_m;
    fastest_mps = Math.max(fastest_mps, y[at.SPEED]!);
    if (!Number.isNaN(seen.speed_mps) || before_m > post_m || head_m < post_m) return;
    const share = (post_m - before_m) / (head_m - before_m);
    seen.speed_mps = from[at.SPEED]! + share * (y[at.SPEED]! - from[at.SPEED]!);
  };
  run(plan, { laps: 1, observers: [{ step, event: () => undefined }] });
  return seen;
}

/** 60 m at the plan's speed, then 40 m at a limit. */
const line = (limit_mps: number, sine = 0) =>
  profile([
    [0, 0],
    [60, 60 * sine, undefined, limit_mps],
    [100, 100 * sine],
    [200, 200 * sine],
  ]);
const onLine = (columns: ReturnType<typeof line>, speed_mps: number, brakes: LocoDefinition["brakes"]) =>
  clubPlan(
    columns,
    { speed_mps, track: { kind: "end-to-end" } },
    { gears: [{ ratio: 6 }], ...(brakes ? { brakes } : {}) },
  );

const PROMPT = [{ rail_force_N: 500, delay_s: 0, build_up_s: 0 }];
const SLOW = [{ rail_force_N: 500, delay_s: 1, build_up_s: 1 }];

describe("a lower limit ahead", () => {
  // Within a look of the driver, a tenth of a second at a quarter of a metre a second squared.
  it.each([
    ["braked at once", PROMPT],
    ["with brakes that take two seconds", SLOW],
    ["coasting", undefined],
  ])("is come down to by its post, %s", (_, brakes) => {
    for (const speed_mps of [2, 3]) {
      for (const limit_mps of [0.5, 1, 1.5]) {
        for (const sine of [0, 0.01, -0.004]) {
          const passed = passing(onLine(line(limit_mps, sine), speed_mps, brakes), 60);
          expect(passed.speed_mps).toBeLessThan(limit_mps + 0.025);
          expect(passed.speed_mps).toBeGreaterThan(limit_mps - 0.025);
        }
      }
    }
  });

  // Derived: four fifths of 0.3 m/s² from 2 to 1 m/s take 6.25 m; the brakes' two seconds are on top, run at up to 2 m/s, and
  // so is a look.
  it("is slowed for as an ordinary stop is, no earlier than that takes", () => {
    const before_m = (brakes: LocoDefinition["brakes"]) => 60 - passing(onLine(line(1), 2, brakes), 60).slows_m;
    expect(before_m(PROMPT)).toBeGreaterThan(6.25 - 0.3);
    expect(before_m(PROMPT)).toBeLessThan(6.25 + 0.3);
    expect(before_m(SLOW)).toBeLessThan(6.25 + 3.3);
  });

  it("is nothing to a train that runs no faster", () => {
    const { slows_m } = passing(onLine(line(1.5), 1.5, PROMPT), 60);
    expect(slows_m).toBeGreaterThan(180);
  });

  it("is looked for beyond the next one, where that comes too late for it", () => {
    const columns = profile([
      [0, 0],
      [60, 0, undefined, 1.8],
      [62, 0, undefined, 0.5],
      [80, 0],
      [200, 0],
    ]);
    expect(passing(onLine(columns, 2, PROMPT), 62).speed_mps).toBeLessThan(0.5 + 0.025);
  });

  it("is found again on the next lap of a circuit, and on the way back", () => {
    const columns = profile([
      [0, 0, undefined, 0.8],
      [30, 0],
      [120, 0],
    ]);
    const circuit = clubPlan(columns, { speed_mps: 1.6, laps: 2 }, { brakes: PROMPT });
    expect(passing(circuit, 120).speed_mps).toBeLessThan(0.8 + 0.025);
    // Seen from the other end the stretch begins at 100 m from the first post.
    let back_mps = Number.NaN;
    const step: Observer["step"] = (w, _from_s, from) => {
      if (!w.returning || from[at.POSITION]! > 100 || w.y[at.POSITION]! <= 100) return;
      back_mps = w.y[at.SPEED]!;
    };
    run(onLine(line(1), 2, PROMPT), { observers: [{ step, event: () => undefined }] });
    expect(back_mps).toBeLessThan(1 + 0.025);
  });
});

// Law: with brakes of more than the road and an ordinary stop want, no head passes a post faster than its limit allows.
it("no limit is passed faster than it allows", () => {
  let passed = 0;
  const brakesOn = (mass_kg: number) => ({ brakes: [{ rail_force_N: 1.4 * mass_kg, delay_s: 0.3, build_up_s: 0.5 }] });
  fc.assert(
    fc.property(anyParts, ({ columns, plan, loco }) => {
      const { lever: _, ...rest } = plan;
      const cars = rest.cars ?? [];
      const riding_kg = (75 * (rest.passengers ?? 0)) / Math.max(1, cars.length);
      const driven: PlanDefinition = {
        ...rest,
        speed_mps: plan.speed_mps ?? 2,
        duration_s: 240,
        track: { ...plan.track, rail: "dry", wind_mps: 0 },
        cars: cars.map((car) => ({ ...car, ...brakesOn(car.mass_kg + riding_kg) })),
      };
      const step: Observer["step"] = ({ y, track, mode }, _from_s, from) => {
        const [before_m, head_m] = [from[at.POSITION]!, y[at.POSITION]!];
        if (mode.train <= 0) return;
        const laps_m = track.kind === "circuit" ? Math.floor(head_m / track.length_m) * track.length_m : 0;
        track.distance_m.forEach((post_m, i) => {
          if (before_m >= laps_m + post_m || head_m < laps_m + post_m) return;
          passed++;
          expect(y[at.SPEED]).toBeLessThan(track.limit_mps[i]! + 0.06);
        });
      };
      const made = createPlan(driven, { ...loco, ...brakesOn(loco.mass_kg + 80) }, columns);
      // A motor whose drag all but slides its wheels is not shut off but eased, and that as fast as they grip.
      if (driveDrag_N(made.train, 2) > 0.5 * grip_N(made.train, 0)) return;
      run(made, { observers: [{ step, event: () => undefined }] });
    }),
    { seed: 41, numRuns: 100, endOnFailure: true },
  );
  expect(passed).toBeGreaterThan(300);
});
