import { root } from "../numeric/roots.js";
import { type Battery, emfLoaded_V, labelShare } from "../parts/battery.js";
import { lifetime_s, wellsAfter_C } from "../parts/battery.wells.js";
import type { Plan } from "../train/plan.js";
import type { BatteryRow } from "./battery.rows.js";

/** How it is emptied. */
export interface Emptying {
  /** Of the whole battery, as it was measured or as the plan has it. */
  readonly resistance_ohm: number;
  /** Its kinetics, over those of the plan: it gives so much more. */
  readonly kinetics: number;
  /** The health that the plan gives it already. */
  readonly planned: number;
}

/** No battery is better or worse. */
const HEALTHS = [0.02, 2] as const;

/**
 * Charge that a battery of this health gives at a steady current from a charge on, until its volts are those of the row or
 * the controller's cut-out.
 */
export function chargeGiven_C(
  plan: Plan,
  { current_A, voltage_V }: BatteryRow,
  from: number,
  { resistance_ohm, kinetics, planned, health }: Emptying & { health: number },
): number {
  const { battery, controller, batteryCable_ohm } = plan.train;
  const amps = current_A as number;
  const grown = health / planned;
  const own: Battery = {
    ...battery,
    wells_C: battery.wells_C * grown * kinetics,
    label_C: battery.label_C * grown * kinetics,
  };
  const end_V = voltage_V ?? controller.cutout_V + batteryCable_ohm * amps;
  const total_C = Math.max(1e-9, own.wells_C - (1 - from) * own.label_C);
  const [available_C, bound_C] = [own.availableShare * total_C, (1 - own.availableShare) * total_C];
  const full_C = own.availableShare * own.wells_C;
  const spare_V = (time_s: number) => {
    const [left_C] = wellsAfter_C(own, available_C, bound_C, amps, time_s);
    const sag_V = (resistance_ohm + own.polarisation_ohm) * amps;
    return emfLoaded_V(own, labelShare(own, left_C / full_C)) - sag_V - end_V;
  };
  const latest_s = lifetime_s(own, available_C, bound_C, amps);
  if (spare_V(0) <= 0) return 0;
  return amps * (spare_V(latest_s) >= 0 ? latest_s : root(spare_V, 0, latest_s));
}

/** The health at which it would have given what was taken. */
export function healthFrom(plan: Plan, row: BatteryRow, from: number, emptying: Emptying): number {
  const over = (health: number) => chargeGiven_C(plan, row, from, { ...emptying, health }) - (row.charge_C as number);
  if (over(HEALTHS[0]) >= 0) return HEALTHS[0];
  if (over(HEALTHS[1]) <= 0) return HEALTHS[1];
  return root(over, HEALTHS[0], HEALTHS[1]);
}
