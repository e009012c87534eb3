import { batteryCauses } from "./causes.battery.js";
import { driveCauses } from "./causes.drive.js";
import { CAUSES, type Cause } from "./causes.kinds.js";
import { ALONE, yardstickOf } from "./causes.ranges.js";
import { standingCauses } from "./causes.standing.js";
import { trainCauses } from "./causes.train.js";
import type { Sureness } from "./doubts.js";
import type { Setting } from "./setting.js";

/** Every cause that this loco can have, in the order of their names above. */
export function causesOf(setting: Setting, sure: Sureness): Cause[] {
  const yardstick = yardstickOf(setting);
  const nothing: Cause = {
    ...{ cause: "nothing_wrong", unit: "none" },
    variants: [{ where: "", sizes: ALONE, apply: (m) => m }],
  };
  return [
    nothing,
    ...standingCauses(setting),
    ...trainCauses(setting, yardstick, sure),
    ...batteryCauses(setting, yardstick),
    ...driveCauses(setting, yardstick, sure),
  ].sort((a, b) => CAUSES.indexOf(a.cause) - CAUSES.indexOf(b.cause));
}
