import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { run } from "../../packages/sim-core/src/run.js";
import * as at from "../../packages/sim-core/src/state.js";
import { breakOff, moveLever } from "../../packages/sim-core/src/working.js";
import { clubPlan, LOCO } from "../support/club.js";
import { coast } from "../support/drivers.js";
import { hill } from "../support/profiles.js";

const G_mps2 = 9.80665;
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe("a heavier train", () => {
  // Law for a constant upgrade and a lever held; not for a whole line, where weight carries a train over a summit.
  it("never has the greater steady speed uphill", () => {
    fc.assert(
      fc.property(share, share, (steepness, opening) => {
        const track = hill(0.002 + 0.02 * steepness);
        const lever = 0.5 + 0.5 * opening;
        const speeds = [0, 2, 4, 6].map((passengers) => {
          const plan = clubPlan(track, { lever, passengers, duration_s: 80 });
          const w = run(plan, { step_s: 0.1, start: { chainage_m: 100, speed_mps: 1.2 } });
          return w.y[at.SPEED];
        });
        for (let i = 1; i < speeds.length; i++) expect(speeds[i]).toBeLessThan(speeds[i - 1]);
      }),
      { seed: 3, numRuns: 12 },
    );
  });
});

describe("a stop", () => {
  const rolling = { rolling: 0.006, rolling_per_speed_spm: 0.001, breakaway: 0.006, sliding_length_m: 0 };

  // What takes speed off is at most grip on the whole weight, rolling and air at their greatest, and the upgrade.
  it.each(["none", "rheostatic"] as const)(
    "is never shorter than v²/2(μg + what else retards), braking: %s",
    (brake) => {
      fc.assert(
        fc.property(share, share, share, share, (fast, steep, weight, wet) => {
          const v = 0.5 + 4 * fast;
          const sine = 0.03 * steep;
          const adhesion = 0.05 + 0.25 * wet;
          const plan = clubPlan(
            hill(sine),
            { passengers: Math.floor(6 * weight), track: { adhesion } },
            {
              resistance: rolling,
              controller: { ...LOCO.controller, motor_current_limit_A: 150, ramp_s: 0, electric_brake: brake },
            },
          );
          const w = run(plan, {
            step_s: 0.05,
            start: { chainage_m: 1000, speed_mps: v },
            driver: (working) => {
              if (working.mode.train <= 0) breakOff(working, "completed");
              else if (brake === "none") coast(working);
              else moveLever(working, -1, 0.1);
            },
          });
          const { train } = w;
          const drag_N =
            ((train.motor.drag_Nm + train.motor.dragPerSpeed_Nms * 1e3) * train.gears.ratio) /
            train.gears.efficiency /
            train.radius_m;
          const else_mps2 = G_mps2 * (0.006 + 0.001 * v + sine) + (train.airFactor * v * v + drag_N) / train.mass_kg;
          const shortest_m = (v * v) / (2 * ((brake === "none" ? 0 : adhesion) * G_mps2 + else_mps2));
          expect(w.y[at.RUN]).toBeGreaterThanOrEqual(shortest_m);
        }),
        { seed: 5, numRuns: 60 },
      );
    },
  );

  it("takes longer on a wet rail than on a dry one when the wheels are braked as hard as they grip", () => {
    const stop_m = (rail: "dry" | "greasy") => {
      const plan = clubPlan(
        hill(0),
        { track: { rail } },
        { controller: { ...LOCO.controller, motor_current_limit_A: 150, ramp_s: 0, electric_brake: "rheostatic" } },
      );
      const w = run(plan, {
        start: { chainage_m: 100, speed_mps: 3 },
        driver: (working) => {
          if (working.mode.train === 0) breakOff(working, "completed");
          else moveLever(working, -1, 0.1);
        },
      });
      return w.y[at.RUN];
    };
    expect(stop_m("greasy")).toBeGreaterThan(stop_m("dry") * 1.2);
  });
});
