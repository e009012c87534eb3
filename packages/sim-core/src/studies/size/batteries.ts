import { HOUR_s } from "../../parts/battery.data.js";
import { batteryFor, type DecidedBy, type Draw } from "../../parts/battery.size.js";
import { controllerKeys, wiringKeys } from "../../parts/drive.keys.js";
import { cable_ohm } from "../../parts/wiring.js";

/** What follows from what the day draws, at one voltage. */
export interface BatteryRow {
  /** In the mean over the day, at the nominal volts. */
  battery_mean_current_A: number;
  /** By the label, of lead-acid at the 20-hour rate, and what asks for so many; null where none keeps the cut-out off. */
  lead_acid_capacity_Ah: number | null;
  lead_acid_decided_by: DecidedBy;
  lifepo4_capacity_Ah: number | null;
  lifepo4_decided_by: DecidedBy;
}

/** Batteries for a day's draw, the controller behind a cable of an area; null: thicker than there are. */
export function batteriesFor(voltage_V: number, draw: Draw, area_mm2: number | null, air_degC: number): BatteryRow {
  const cable_m = wiringKeys.battery_cable.keys.length.default.value.battery_m;
  const ohm = area_mm2 === null ? 0 : cable_ohm(cable_m, area_mm2, air_degC);
  const cutoutCell_V = controllerKeys.undervoltage_cutout.default.value;
  const of = (chemistry: "lead-acid" | "lifepo4") =>
    batteryFor(chemistry, voltage_V, draw, cutoutCell_V[chemistry], ohm, air_degC);
  const leadAcid = of("lead-acid");
  const lifepo4 = of("lifepo4");
  return {
    battery_mean_current_A: draw.mean_W / voltage_V,
    lead_acid_capacity_Ah: inAh(leadAcid.label_C),
    lead_acid_decided_by: leadAcid.decidedBy,
    lifepo4_capacity_Ah: inAh(lifepo4.label_C),
    lifepo4_decided_by: lifepo4.decidedBy,
  };
}

const inAh = (charge_C: number): number | null => (Number.isFinite(charge_C) ? charge_C / HOUR_s : null);
