import { InputError } from "../errors.js";
import { chargeDataOf, LEAD_ACID_COLD_degC, lithiumMost_ph } from "../parts/battery.charge.data.js";
import { type Charge, type Charger, chargeFrom, passes_s } from "../parts/battery.charge.js";
import { airWanted_m3ph, freeVolume_m3, GASSING_Ap100Ah, hydrogen_l, openings_cm2 } from "../parts/battery.gas.js";
import { sound } from "../record/sound.js";
import type { Plan } from "../train/plan.js";
import { mustBeAsked } from "./asked.js";

export type ChargingCautionCode =
  /** Lead-acid gives off hydrogen: air must move, and nothing may spark. */
  | "gas"
  /** At and below 0 °C lithium iron phosphate is not charged: `value` the air, `limit` 0 °C. */
  | "lithium_below_freezing"
  /** In this air lithium iron phosphate takes less current: `value` the charger's, `limit` the most it may be. */
  | "lithium_cold_current"
  | "lithium_hot"
  /** Slower than these hours, by how much is not known. */
  | "lead_acid_cold"
  /** More than the chemistry is usually charged with. */
  | "current_above_usual"
  /** The management's high volts come before the charger's: it disconnects, and the last of the charge is left out. */
  | "management_disconnects";

export interface ChargingCaution {
  code: ChargingCautionCode;
  value: number | null;
  limit: number | null;
  unit: "A" | "V" | "degC" | null;
}

/** Of wet lead-acid cells; sealed ones want half of the air. EN 62485-3, and Faraday's law. */
export interface ChargingGas {
  hydrogen_l: number;
  air_m3ph: number;
  air_sealed_m3ph: number;
  /** One low and one high, each so large; or a room with so much free volume. */
  opening_cm2: number;
  room_m3: number;
}

export interface ChargingMoment {
  time_h: number;
  state_of_charge: number;
  current_A: number;
}

/** The answer of `charging`: from a rested state of charge to full. */
export interface ChargingAnswer {
  charger_current_A: number;
  charger_voltage_V: number;
  /** Share of the label's charge that it starts from. */
  from: number;
  /** At the charger's full current; then it tapers. */
  constant_current_h: number;
  /** State of charge at which the current begins to fall. */
  state_of_charge_at_taper: number;
  /** 0 where it starts above; null where it does not come to it. */
  to_90_percent_h: number | null;
  /** Null where it is never full: cut off by its management before, or not in two weeks. */
  to_full_h: number | null;
  ended_by: Charge["endedBy"];
  state_of_charge_end: number;
  current_at_end_A: number;
  /** Charge missing at the start, up to where the charge ended; and what the charger gave for it. */
  taken_Ah: number;
  given_Ah: number;
  charge_factor: number;
  /** Into the battery's terminals, at the charger's volts throughout: at most so much. */
  energy_at_most_Wh: number;
  /** Null where the chemistry gives off none. */
  gas: ChargingGas | null;
  cautions: ChargingCaution[];
  /** Some hundred moments from start to end. */
  moments: ChargingMoment[];
}

export interface ChargingOptions {
  /** State of charge it starts from, rested. */
  from: number;
  /** In place of the plan's `battery.charger`. */
  charger?: Charger;
}

const MOMENTS = 120;
const MOST_AMPS = 1e4;
const HOUR_s = 3600;

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
    gas: gasOf(plan, charge.given_C),
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

function gasOf({ train: { battery } }: Plan, given_C: number): ChargingGas | null {
  if (battery.chemistry !== "lead-acid") return null;
  const air_m3ph = (gassing: number) => airWanted_m3ph(battery.cells, gassing, battery.printed_C / HOUR_s);
  const vented_m3ph = air_m3ph(GASSING_Ap100Ah.vented);
  return {
    hydrogen_l: hydrogen_l(battery.chemistry, battery.cells, given_C),
    air_m3ph: vented_m3ph,
    air_sealed_m3ph: air_m3ph(GASSING_Ap100Ah.sealed),
    opening_cm2: openings_cm2(vented_m3ph),
    room_m3: freeVolume_m3(vented_m3ph),
  };
}

function cautionsOf({ train: { battery, protection }, air_degC }: Plan, charger: Charger): ChargingCaution[] {
  const found: ChargingCaution[] = [];
  const add = (
    code: ChargingCautionCode,
    value: number | null = null,
    limit: number | null = null,
    unit: ChargingCaution["unit"] = null,
  ) => found.push({ code, value, limit, unit });
  const { current_A, voltage_V } = charger;
  const of_A = (per_h: number) => (per_h * battery.printed_C) / HOUR_s;
  if (battery.chemistry === "lead-acid") {
    add("gas");
    if (air_degC < LEAD_ACID_COLD_degC) add("lead_acid_cold", air_degC, LEAD_ACID_COLD_degC, "degC");
  }
  const most_A = of_A(chargeDataOf(battery.chemistry).most_ph);
  if (current_A > most_A) add("current_above_usual", current_A, most_A, "A");
  if (battery.chemistry === "lifepo4") {
    const here_A = of_A(lithiumMost_ph(air_degC));
    if (air_degC <= 0) add("lithium_below_freezing", air_degC, 0, "degC");
    else if (air_degC > LITHIUM_HOT_degC) add("lithium_hot", air_degC, LITHIUM_HOT_degC, "degC");
    else if (current_A > here_A && current_A <= most_A) add("lithium_cold_current", current_A, here_A, "A");
  }
  if (voltage_V > protection.high_V) add("management_disconnects", voltage_V, protection.high_V, "V");
  return found;
}

/** Charged up to 45 °C (atoallinks.com); another maker has a fifth of the current from 50 °C. */
const LITHIUM_HOT_degC = 45;

export interface LeastChargerOptions {
  from: number;
  /** Full within so many hours: 12 from Saturday's last train to Sunday morning. */
  by_h: number;
}

/** The answer of `leastCharger`. */
export interface LeastChargerAnswer {
  from: number;
  by_h: number;
  charger_voltage_V: number;
  /** Least current with which it is full in time; null where none that the battery is usually charged with does it. */
  current_A: number | null;
  /** Most current that the chemistry is usually charged with in this air; 0 where it may not be charged. */
  most_current_A: number;
  /** Hours to full with that; null where it is never full. */
  at_most_current_h: number | null;
  /** The charge with the least current, or with the most where none is enough; null where it may not be charged. */
  charging: ChargingAnswer | null;
}

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
