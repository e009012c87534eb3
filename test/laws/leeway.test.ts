import { describe, expect, test } from "vitest";
import { drive } from "../../packages/sim-core/src/driver/driver.js";
import { run } from "../../packages/sim-core/src/run.js";
import { breakOff, type Working } from "../../packages/sim-core/src/working.js";
import { clubPlan, PLAN } from "../support/club.js";
import { profile } from "../support/profiles.js";

const { lever: _, ...held } = PLAN;

/** A line without brakes, to its end the first time; the driver shuts off so much later than is right. */
function comesIn(ends: readonly (readonly [number, number])[], later_m: number): Working {
  const plan = clubPlan(
    profile([[0, 0], [120, 0], ...ends.map(([at_m, height_m]) => [at_m, height_m] as const)]),
    { ...held, speed_mps: 1.6, laps: 1, track: { kind: "end-to-end", at_ends: "turn", rail: "dry" } },
    { brakes: [] },
  );
  let late = false;
  const driver = (w: Working) => {
    if (!late && w.approach) {
      late = true;
      w.approach = { ...w.approach, along_m: w.approach.along_m.map((each) => each + later_m) };
    }
    if (w.events.some(({ kind }) => kind === "draws_up" || kind === "stop")) breakOff(w, "completed");
    else drive(w);
  };
  return run(plan, { laps: 1, driver });
}

// What is told is what happens: a little less than the leeway later it still comes to rest, a little more and it overruns.
describe("how much later a driver without a brake may shut off", () => {
  test.each([
    ["on the level", [[150, 0]]],
    ["on a fall of 1 in 150", [[180, -0.4]]],
    [
      "over a fall, then level",
      [
        [160, -0.3],
        [180, -0.3],
      ],
    ],
    ["up a rise", [[160, 0.4]]],
  ] as const)("%s", (_where, ends) => {
    const shut = comesIn(ends, 0).events.find((event) => event.kind === "shuts_off");
    const leeway_m = shut?.leeway_m ?? Number.NaN;
    expect(leeway_m).toBeGreaterThan(0.5);
    expect(comesIn(ends, leeway_m - 0.2).outcome).toBe("completed");
    expect(comesIn(ends, leeway_m + 0.2).outcome).toBe("overran");
  });
});
