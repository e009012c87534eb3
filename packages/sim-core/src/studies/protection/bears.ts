import { MAGNETIC_s } from "../../parts/breaker.ratings.js";
import type { ProtectionAnswer } from "./answer.js";
import type { SwitchDuty } from "./switches.answer.js";

/**
 * What speaks against each. A stalled motor does not speak against a breaker, since none in the battery's lead guards one;
 * that a breaker marked with poles may not break what braking feeds back is for words: the file does not say how it is marked.
 */
const AGAINST = {
  device: /^(device_(?!protects_stalled_motor)|short_circuit_trips_at_once)/,
  battery_cable: /^(battery_cable_|short_circuit_spares_cable)/,
  motor_cable: /^motor_cable_/,
} as const satisfies Record<string, RegExp>;

/**
 * Does it bear what is asked of it? A battery cable with no breaker or fuse, or with one that will not do, must carry what the
 * breaker to buy is rated for and stand a short circuit until that trips: a cable burns before a larger breaker does.
 */
export function bears(protection: ProtectionAnswer, what: keyof typeof AGAINST): boolean {
  const { findings, device, battery_cable, short_circuit, recommended } = protection;
  const stands = (of: keyof typeof AGAINST) => findings.every(({ code, ok }) => ok || !AGAINST[of].test(code));
  if (!stands(what)) return false;
  if (what !== "battery_cable" || (device !== "none" && stands("device"))) return true;
  return (
    short_circuit.cable_withstands_s >= MAGNETIC_s && battery_cable.carries_A >= (recommended?.breaker_rating_A ?? 0)
  );
}

/** What a part of a working proves: that something will not do, and never that it will. */
export const proven = (enough: boolean | null, round: boolean): boolean | null => (enough && !round ? null : enough);

/** What a switch is to carry for ever, on the safe side: the root mean square of the working or of its worst minute. */
export const lasting_A = ({ carries_A, carries_minute_A }: SwitchDuty): number | null =>
  carries_A === null ? null : Math.max(carries_A, carries_minute_A ?? 0);
