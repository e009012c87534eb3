import type { Basis } from "./basis.js";
import { type Compared, pieceOf } from "./cells.js";

/** A piece of line over which the log is steady: what a sheet of the first outing asks to be read. */
export interface SteadyPiece {
  /** Of the head, half way along it. */
  at_m: number;
  speed_mps: number;
  /** Share of one, as the controller has it. */
  duty: number;
  motor_current_A: number | null;
  battery_current_A: number | null;
  battery_voltage_V: number | null;
}

/** Steady is what changes by less over the piece and its neighbours, m/s². */
const STEADY_mps2 = 0.005;
/** Below this a lever tells of starting. */
const LEAST_DUTY = 0.2;

/** The piece at which the speed changes least, its neighbours counted in; null where none will do or no duty is logged. */
export function steadiest({ logged, cells }: Basis): SteadyPiece | null {
  const { speed, duty } = logged;
  let [best, least_mps2] = [-1, STEADY_mps2];
  for (let i = 1; i + 1 < speed.length; i++) {
    const gains_mps2 = Math.max(
      Math.abs(speed[i + 1] ** 2 - speed[i] ** 2) / (2 * cells.cell_m),
      Math.abs(speed[i] ** 2 - speed[i - 1] ** 2) / (2 * cells.cell_m),
    );
    // NaN is never less.
    if (!(gains_mps2 < least_mps2) || !(duty[i] >= LEAST_DUTY)) continue;
    [best, least_mps2] = [i, gains_mps2];
  }
  if (best < 0) return null;
  const read = (name: Compared) => (Number.isNaN(logged[name][best]) ? null : logged[name][best]);
  return {
    at_m: (pieceOf(cells, best) + 0.5) * cells.cell_m,
    speed_mps: speed[best],
    duty: Math.min(1, duty[best]),
    motor_current_A: read("motor_current"),
    battery_current_A: read("battery_current"),
    battery_voltage_V: read("battery_voltage"),
  };
}
