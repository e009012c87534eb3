import { assume, type Notes } from "../errors.js";
import { batteryKeys } from "./battery.keys.js";
import type { LocoDefinition } from "./files.keys.js";

/** A lithium battery's own cut-off, for the whole battery; what it does not watch is out of reach. */
export interface Protection {
  readonly fitted: boolean;
  readonly current_A: number;
  readonly delay_s: number;
  readonly low_V: number;
  readonly high_V: number;
}

const { delay } = batteryKeys.protection.keys;

export function createProtection(given: LocoDefinition["battery"]["protection"], notes: Notes): Protection {
  return {
    fitted: given !== undefined,
    current_A: given?.current_A ?? Number.POSITIVE_INFINITY,
    delay_s: given ? assume(notes, "loco.battery.protection.delay", given.delay_s, delay.default) : 0,
    low_V: given?.low_voltage_V ?? Number.NEGATIVE_INFINITY,
    high_V: given?.high_voltage_V ?? Number.POSITIVE_INFINITY,
  };
}
