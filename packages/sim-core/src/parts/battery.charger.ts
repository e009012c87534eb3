import { type Notes, shown } from "../errors.js";
import { chargeDataOf } from "./battery.charge.data.js";
import type { Charger } from "./battery.charge.js";
import type { Battery } from "./battery.js";
import type { LocoDefinition } from "./files.keys.js";

/** Less than this above the volts of a full battery at rest, for each of them, never fills it: common practice, no source. */
const LEAST_ABOVE = 1.01;
const PATH = "loco.battery.charger";

/** The charger that the file gives, looked at beside its battery; null where it gives none. */
export function createCharger(
  given: LocoDefinition["battery"]["charger"],
  battery: Battery,
  high_V: number,
  notes: Notes,
): Charger | null {
  if (!given) return null;
  const { current_A, voltage_V } = given;
  const full_V = battery.rested.y[battery.rested.y.length - 1];
  const warn = (code: string, key: string, message: string) =>
    notes.warnings.push({ code, path: `${PATH}.${key}`, message });
  if (voltage_V < LEAST_ABOVE * full_V) {
    const message = `${shown(voltage_V, "V")} fills no battery that rests at ${shown(full_V, "V")} when it is full; give the volts of the whole battery's charger, ${usual(battery)}`;
    notes.problems.push({ path: `${PATH}.voltage`, message });
    return { current_A, voltage_V };
  }
  const data = chargeDataOf(battery.chemistry);
  const cell_V = voltage_V / battery.cells;
  const each = `${shown(voltage_V, "V")} is ${shown(cell_V, "V")} a cell`;
  if (cell_V > data.cellAtMost_V * 1.001) {
    const message = `${each}; over ${shown(data.cellAtMost_V, "V")} ${battery.chemistry === "lifepo4" ? "a lithium battery is overcharged, which can set it on fire" : "lead-acid boils its water off"}: ${usual(battery)}`;
    warn("charger_volts_high", "voltage", message);
  } else if (cell_V < data.cellAtLeast_V) {
    warn("charger_volts_low", "voltage", `${each}; it does not fill this battery in good time: ${usual(battery)}`);
  }
  if (voltage_V > high_V) {
    const message = `${shown(voltage_V, "V")} is above the ${shown(high_V, "V")} at which the battery's own protection disconnects`;
    warn("charger_above_protection", "voltage", message);
  }
  const most_A = (data.most_ph * battery.printed_C) / 3600;
  if (current_A > most_A) {
    const message = `${shown(current_A, "A")} is more than the ${shown(most_A, "A")} that this battery is usually charged with at most (${shown(data.most_ph)} A for each Ah): its own data sheet decides`;
    warn("charger_current", "current", message);
  }
  return { current_A, voltage_V };
}

const usual = ({ chemistry, cells }: Battery): string => {
  const { cell_V } = chargeDataOf(chemistry);
  return Number.isFinite(cell_V * cells)
    ? `usually ${shown(cell_V * cells, "V")}, ${shown(cell_V, "V")} a cell`
    : "its data sheet has them";
};
