import { expect, test } from "vitest";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { doubtsOf, surenessOf } from "../../packages/sim-core/src/studies/trial/doubts.js";
import { readingsOf } from "../../packages/sim-core/src/studies/trial/readings.js";
import { settingOf } from "../../packages/sim-core/src/studies/trial/setting.js";
import { statesOf } from "../../packages/sim-core/src/studies/trial/states.js";
import { clubOuting, LOCO } from "../support/club.js";

const BRAKED: LocoDefinition = { ...LOCO, brakes: [{ rail_force_N: 300, delay_s: 0.2, build_up_s: 0.4 }] };
const setting = settingOf(clubOuting(BRAKED), BRAKED);
const readings = readingsOf(setting);
// What is quick to work out first: few doubts show after laps only.
readings.sort((a, b) => Number(a.timed) - Number(b.timed));
const sound = statesOf(setting, setting.machine);

test.each(doubtsOf(surenessOf([], BRAKED)))(
  "doubt about $name shows in some reading, and none of it in none",
  ({ apply }) => {
    // On one side at least: a battery that is full cannot be fuller.
    const shows = (z: number, m = setting.machine) => {
      const off = statesOf(setting, apply(m, z));
      const without = statesOf(setting, m);
      return readings.some(({ value }) => value(off) !== value(without));
    };
    // What an output shows with nothing on it, only a lead that is off can tell.
    expect(shows(1) || shows(-1) || shows(1, { ...setting.machine, open: "motor" })).toBe(true);
    const none = statesOf(setting, apply(setting.machine, 0));
    for (const { reading, timed, value } of readings)
      if (!timed) expect(value(none) ?? 0, reading).toBeCloseTo(value(sound) ?? 0, 6);
  },
);
