import { chargeDataOf, LEAD_ACID_COLD_degC, lithiumMost_ph } from "../../parts/battery.charge.data.js";
import type { Charger } from "../../parts/battery.charge.js";
import { HOUR_s } from "../../parts/battery.data.js";
import { airWanted_m3ph, freeVolume_m3, gassing_Ap100Ah, hydrogen_l, openings_cm2 } from "../../parts/battery.gas.js";
import type { Plan } from "../../train/plan.js";
import type { ChargingCaution, ChargingCautionCode, ChargingGas } from "./answer.js";

/** Hydrogen of a charge and the air it wants; null where the chemistry gives off none. */
export function gasOf({ train: { battery } }: Plan, { voltage_V }: Charger, given_C: number): ChargingGas | null {
  if (battery.chemistry !== "lead-acid") return null;
  const gassing_A = gassing_Ap100Ah(voltage_V / battery.cells);
  const air_m3ph = (gassing: number) => airWanted_m3ph(battery.cells, gassing, battery.printed_C / HOUR_s);
  const vented_m3ph = air_m3ph(gassing_A.vented);
  return {
    hydrogen_l: hydrogen_l(battery.chemistry, battery.cells, given_C),
    air_m3ph: vented_m3ph,
    air_sealed_m3ph: air_m3ph(gassing_A.sealed),
    opening_cm2: openings_cm2(vented_m3ph),
    room_m3: freeVolume_m3(vented_m3ph),
  };
}

/** What to look out for with a charger, in the plan's air. */
export function cautionsOf({ train: { battery, protection }, air_degC }: Plan, charger: Charger): ChargingCaution[] {
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
