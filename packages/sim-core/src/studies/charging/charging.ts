import { InputError } from "../../errors.js";
import { chargeDataOf } from "../../parts/battery.charge.data.js";
import { type Charge, type Charger, chargeFrom, passes_s } from "../../parts/battery.charge.js";
import { HOUR_s } from "../../parts/battery.data.js";
import { sound } from "../../record/sound.js";
import type { Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import type { ChargingAnswer, ChargingMoment } from "./answer.js";
import { cautionsOf, gasOf } from "./cautions.js";

export interface ChargingOptions {
  /** State of charge it starts from, rested. */
  from: number;
  /** In place of the plan's `battery.charger`. */
  charger?: Charger;
}

const MOMENTS = 120;

/**
 * How long it takes to charge the plan's battery, in the plan's air, from a state of charge to full.
 * @throws InputError where no charger is given, or where a number is none or out of bounds
 */
export function charging(plan: Plan, options: ChargingOptions): ChargingAnswer {
  mustBeAsked({ charge: options.from });
  const { train } = plan;
  const charger = options.charger ?? train.charger;
  if (!charger) {
    const message = "no charger is given: give its current and voltage, as { current: 10 A, voltage: 28.8 V }";
    throw new InputError([{ path: "loco.battery.charger", message }]);
  }
  mustBeAsked({ charger_current_A: charger.current_A, charger_voltage_V: charger.voltage_V });
  const { battery, protection } = train;
  const data = chargeDataOf(battery.chemistry);
  const charge = chargeFrom(battery, data, charger, options.from, protection.high_V);
  const last = charge.moments[charge.moments.length - 1];
  const full = charge.endedBy === "charge" || charge.endedBy === "current";
  const to90_s = passes_s(charge, 0.9);
  return sound({
    charger_current_A: charger.current_A,
    charger_voltage_V: charger.voltage_V,
    from: options.from,
    constant_current_h: charge.tapers_s / HOUR_s,
    state_of_charge_at_taper: shareAt(charge, charge.tapers_s),
    to_90_percent_h: Number.isNaN(to90_s) ? null : to90_s / HOUR_s,
    to_full_h: full ? last.time_s / HOUR_s : null,
    ended_by: charge.endedBy,
    state_of_charge_end: last.share,
    current_at_end_A: last.current_A,
    taken_Ah: ((last.share - options.from) * battery.label_C) / HOUR_s,
    given_Ah: charge.given_C / HOUR_s,
    charge_factor: data.factor,
    energy_at_most_Wh: (charge.given_C * charger.voltage_V) / HOUR_s,
    gas: gasOf(plan, charger, charge.given_C),
    cautions: cautionsOf(plan, charger),
    moments: thinned(charge),
  });
}

const shareAt = ({ moments }: Charge, time_s: number): number =>
  (moments.find((moment) => moment.time_s >= time_s) ?? moments[moments.length - 1]).share;

function thinned({ moments }: Charge): ChargingMoment[] {
  const every = Math.max(1, Math.ceil(moments.length / MOMENTS));
  return moments
    .filter((_, i) => i % every === 0 || i === moments.length - 1)
    .map(({ time_s, share, current_A }) => ({ time_h: time_s / HOUR_s, state_of_charge: share, current_A }));
}
