import { describe, expect, test } from "vitest";
import { batteryReadings } from "../../packages/sim-core/src/field/battery.js";
import { MADE_UP, madeUp, readingsOf } from "../support/batteries.js";
import { draws } from "../support/draws.js";

const SETS = 500;
const PATHS = ["plan.charge", "loco.battery.each.resistance", "loco.battery.health"] as const;

/** How often what is told holds the truth. */
function held(seed: number, how: Parameters<typeof readingsOf>[2]): number[] {
  const drawn = draws(seed);
  const times = [0, 0, 0];
  for (let set = 0; set < SETS; set++) {
    const battery = madeUp(drawn);
    const { fitted } = batteryReadings(MADE_UP, readingsOf(battery, drawn, how));
    for (const [i, truth] of [battery.charge, battery.resistance_ohm, battery.health].entries()) {
      const told = fitted.find(({ path }) => path === PATHS[i]);
      if (told && told.low <= truth && truth <= told.high) times[i]! += 1 / SETS;
    }
  }
  return times;
}

describe("five hundred made-up batteries: nineteen in twenty hold the truth in 92 to 98 of 100", () => {
  test.each([
    ["two loads", 5, {}],
    ["a run at 30 A", 6, { emptied_A: 30 }],
    ["eight loads, each 0.1 V off its line", 7, { loads: [15, 20, 25, 30, 35, 40, 45, 50], scatter_V: 0.1 }],
  ])("%s", (_, seed, how) => {
    const times = held(seed, how);
    for (const each of times) {
      expect(each).toBeGreaterThan(0.92);
      expect(each).toBeLessThan(0.98);
    }
  });
});
