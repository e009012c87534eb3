import { slowedBy_pkg } from "../drive/meshes.js";
import { RunError, shown } from "../errors.js";
import { steepest_Nm2pA2 } from "../parts/motor.points.js";
import type { Train } from "../train/train.js";
import type { Working } from "../working.js";

/** Parts of a step while the wheels slip are at most this share of the rims' own time constant. */
const SHARE = 0.1;
/** A motor stronger, or rims lighter, than any would want more parts than this of one step. */
const MOST_PARTS = 50_000;

/**
 * How many equal parts of a step follow the wheels while they slip: then only rotor and rims answer the motor, many times
 * as fast as the train.
 * @throws RunError where they answer too fast to be followed
 */
export function partsOfStep({ mode, train }: Working, step_s: number): number {
  if (mode.wheels === 0 || mode.rim === 0) return 1;
  const rate = rimRate_ps(train, 0, mode.powered);
  const parts = Math.ceil((step_s * rate) / SHARE);
  if (parts <= MOST_PARTS) return Math.max(1, parts);
  throw new RunError(
    `the driven wheels slip, and motor and wheels answer each other within ${shown(1 / rate, "s")}: too fast to be followed; ` +
      "look at loco.motor, its inertia, loco.gears and loco.wheels.wheelset_inertia",
  );
}

/**
 * How fast at most the drive answers a change of speed of the rims, with a mass that moves along with them: k²G²/(r² R m) of
 * the current, b G²/(r² m) of the motor's drag, 1/s.
 */
export function rimRate_ps(
  { motor, gears, radius_m, motorPath_ohm, meshes }: Train,
  along_kg: number,
  powered = true,
): number {
  const pull_Nms = powered ? steepest_Nm2pA2(motor) / (motor.resistance20_ohm + motorPath_ohm) : 0;
  return (pull_Nms + motor.dragPerSpeed_Nms) * (gears.ratio / radius_m) ** 2 * slowedBy_pkg(meshes, along_kg);
}
