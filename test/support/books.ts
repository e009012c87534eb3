import type { Observer } from "../../packages/sim-core/src/loop/stepper.js";
import { energyBalance } from "../../packages/sim-core/src/record/balance.js";
import * as at from "../../packages/sim-core/src/state.js";
import type { Working } from "../../packages/sim-core/src/working.js";

/** Every loss but that to the air, which a following wind can give back. */
const LOSSES = {
  RUN: at.RUN,
  DRAWN: at.DRAWN,
  RETURNED: at.RETURNED,
  BATTERY_SQUARE: at.BATTERY_SQUARE,
  MOTOR_SQUARE: at.MOTOR_SQUARE,
  RECOVERY: at.RECOVERY,
  KNEE: at.KNEE,
  POLARISATION_LOSS: at.POLARISATION_LOSS,
  STANDING: at.STANDING,
  COPPER: at.COPPER,
  BRUSHES: at.BRUSHES,
  MOTOR_DRAG: at.MOTOR_DRAG,
  GEARS: at.GEARS,
  SLIP: at.SLIP,
  BRAKE_RESISTOR: at.BRAKE_RESISTOR,
  BRAKES: at.BRAKES,
  ROLLING: at.ROLLING,
  CURVES: at.CURVES,
} as const;

/** Looks on and notes each loss that ever shrank. */
export function watchLosses(): { observer: Observer; shrunk: Set<string> } {
  const shrunk = new Set<string>();
  const step: Observer["step"] = (w, _from_s, from) => {
    // Landing on the far side of a stop leaves up to 1e-9 s of running the wrong way.
    for (const [name, i] of Object.entries(LOSSES)) if (w.y[i] < from[i] - 1e-9) shrunk.add(name);
  };
  return { observer: { step, event: () => undefined }, shrunk };
}

/** What the books leave unexplained, and all that changed hands in them, J. */
export function books(w: Working): { residual_J: number; turnover_J: number } {
  const { drawn_J, returned_J, chemical_J, shifted_J: _by_hand, residual_share: _share, ...terms } = energyBalance(w);
  const values = Object.values(terms);
  return {
    residual_J: chemical_J - values.reduce((sum, term) => sum + term, 0),
    turnover_J: values.reduce((sum, term) => sum + Math.abs(term), drawn_J + returned_J),
  };
}

/** By how much the wells and the charge drawn from them miss what was there at the start, as a share of it. */
export function chargeMissed({ y, start }: Working): number {
  const there_C = start[at.AVAILABLE] + start[at.BOUND];
  return Math.abs(y[at.AVAILABLE] + y[at.BOUND] + y[at.DRAWN_CHARGE] - there_C) / there_C;
}
