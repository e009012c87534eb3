import { InputError } from "../../errors.js";
import { chargeDataOf, lithiumMost_ph } from "../../parts/battery.charge.data.js";
import { HOUR_s } from "../../parts/battery.data.js";
import { sound } from "../../record/sound.js";
import type { Plan } from "../../train/plan.js";
import { mustBeAsked } from "../asked.js";
import type { ChargingAnswer, LeastChargerAnswer } from "./answer.js";
import { charging } from "./charging.js";

export interface LeastChargerOptions {
  from: number;
  /** Full within so many hours: 12 from Saturday's last train to Sunday morning. */
  by_h: number;
}

/** More no key takes. */
const MOST_AMPS = 1e4;
/** By halves of the current this often: to a millionth. */
const HALVES = 24;

/**
 * The least charger that has the battery full in time, at the volts of the plan's charger or, where it has none, at those
 * usual for the chemistry.
 * @throws InputError where neither a charger nor a chemistry with usual volts is given, or a number is out of bounds
 */
export function leastCharger(plan: Plan, { from, by_h }: LeastChargerOptions): LeastChargerAnswer {
  mustBeAsked({ charge: from, by_h });
  const { battery, charger } = plan.train;
  const data = chargeDataOf(battery.chemistry);
  const voltage_V = charger?.voltage_V ?? data.cell_V * battery.cells;
  if (!Number.isFinite(voltage_V)) {
    const message =
      "volts to charge to are known for lead-acid and lifepo4 only: give the charger's current and voltage";
    throw new InputError([{ path: "loco.battery.charger", message }]);
  }
  const most_ph =
    battery.chemistry === "lifepo4" ? Math.min(data.most_ph, lithiumMost_ph(plan.air_degC)) : data.most_ph;
  const most_A = Math.min(MOST_AMPS, (most_ph * battery.printed_C) / HOUR_s);
  const answerAt = (current_A: number) => charging(plan, { from, charger: { current_A, voltage_V } });
  const hoursAt = (current_A: number) => answerAt(current_A).to_full_h ?? Number.POSITIVE_INFINITY;
  const answer = (current_A: number | null, at_h: number, told: ChargingAnswer | null): LeastChargerAnswer => ({
    from,
    by_h,
    charger_voltage_V: voltage_V,
    current_A,
    most_current_A: most_A,
    at_most_current_h: Number.isFinite(at_h) ? at_h : null,
    charging: told,
  });
  if (!(most_A > 0)) return sound(answer(null, Number.POSITIVE_INFINITY, null));
  const best_h = hoursAt(most_A);
  if (best_h > by_h) return sound(answer(null, best_h, answerAt(most_A)));
  // Less than what is lacking over the hours fills nothing in time.
  let low_A = Math.min(most_A, Math.max(1e-3, ((data.fullShare - from) * battery.label_C) / (by_h * HOUR_s)) / 2);
  let high_A = most_A;
  for (let i = 0; i < HALVES; i++) {
    const middle_A = (low_A + high_A) / 2;
    if (hoursAt(middle_A) <= by_h) high_A = middle_A;
    else low_A = middle_A;
  }
  return sound(answer(high_A, best_h, answerAt(high_A)));
}
