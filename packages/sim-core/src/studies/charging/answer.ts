import type { ChargeEnd } from "../../parts/battery.charge.js";

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

/** Of lead-acid, by EN 62485-3 and Faraday's law: air of wet cells, and of sealed ones, which want less. */
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
  ended_by: ChargeEnd;
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

/** A charge without its curve. */
export type ChargingInShort = Omit<ChargingAnswer, "moments">;

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
