import { expect, test } from "vitest";
import { restartGradient } from "../../packages/sim-core/src/drive/climbing.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { cold } from "../../packages/sim-core/src/studies/climb/climb.js";
import { settingOf } from "../../packages/sim-core/src/studies/trial/setting.js";
import { statesOf } from "../../packages/sim-core/src/studies/trial/states.js";
import { clubOuting, LOCO } from "../support/club.js";

// Pulling shifts weight onto a driven rear axle and off a driven front one: the sheet restarts where the load table does.
test.each(["front", "rear"] as const)("restarts by the load table with its %s axle driven", (driven_end) => {
  const heights = { coupling_height_m: 0.15, gravity_height_m: 0.25, wheelbase_m: 0.6 };
  const loco: LocoDefinition = { ...LOCO, wheels: { ...LOCO.wheels, driven_axles: 1, driven_end, ...heights } };
  const setting = settingOf(clubOuting(loco), loco);
  const { train } = setting.outing;
  expect(train.train.transfer.end).not.toBe(0);
  const { sine } = restartGradient(train.train, cold(train));
  expect(sine).toBeGreaterThan(0);
  const spare = (steep: number) => statesOf(setting, { ...setting.machine, steep }).spare().start_N;
  expect(spare(sine - 1e-6)).toBeGreaterThan(0);
  expect(spare(sine + 1e-6)).toBeLessThan(0);
});
