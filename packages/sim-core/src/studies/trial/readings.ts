import type { Reading } from "./readings.kinds.js";
import { looks } from "./readings.looks.js";
import { firstRun, restarted } from "./readings.moving.js";
import { heldBack, rolled } from "./readings.pulled.js";
import { batteryAtRest, beforePower, onTheStands } from "./readings.standing.js";
import { afterItsLaps, leftStanding, stops } from "./readings.stopped.js";
import type { Setting } from "./setting.js";

/** Everything to read on this loco's outing, step by step in order. */
export const readingsOf = (setting: Setting): Reading[] => [
  ...looks(setting),
  ...beforePower(setting),
  ...batteryAtRest(setting),
  ...onTheStands(setting),
  ...heldBack(setting),
  ...rolled(),
  ...firstRun(setting),
  ...restarted(),
  ...stops(setting),
  ...leftStanding(setting),
  ...afterItsLaps(setting),
];
