import { chargeDataOf } from "./battery.charge.data.js";
import type { Charger } from "./battery.charge.js";
import type { Battery } from "./battery.js";

/**
 * The most volts that a battery comes to: off its charger, or off the usual one where none is given, where braking feeds back
 * into it, and full at rest.
 * @param fedBack_V limit of volts when braking; no number where nothing is fed back
 */
export function highest_V(battery: Battery, charger: Charger | null, fedBack_V: number): number {
  const { rested, chemistry, cells } = battery;
  const charged_V = charger?.voltage_V ?? chargeDataOf(chemistry).cell_V * cells;
  const volts = [rested.y[rested.y.length - 1], charged_V, fedBack_V];
  return Math.max(...volts.filter(Number.isFinite));
}
