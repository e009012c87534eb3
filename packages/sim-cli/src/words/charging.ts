import { type ChargingCaution, type ChargingInShort, figures, shown } from "@rideon/sim-core";
import type { Eyes } from "./eyes.js";
import { directed } from "./rounding.js";

const HOUR_s = 3600;

/** Hours as they are worth telling, the safe way: the next quarter up to two of them, the next half beyond. */
const hoursUp = (time_h: number, eyes: Eyes): string => {
  const parts = time_h <= 2 ? 4 : 2;
  return eyes.of((Math.ceil(time_h * parts - 1e-6) / parts) * HOUR_s, "time");
};

/** How long a charge takes, in a sentence or two; and what to look out for. */
export function chargingInWords(charging: ChargingInShort, eyes: Eyes): string {
  return [
    howLong(charging, eyes),
    ...charging.cautions.flatMap((caution) => CAUTIONS[caution.code](caution, charging, eyes)),
  ].join(" ");
}

function howLong(charging: ChargingInShort, eyes: Eyes): string {
  const { charger_current_A, charger_voltage_V, to_full_h, to_90_percent_h, constant_current_h } = charging;
  const charger = `A charger of ${eyes.of(charger_current_A, "current")} at ${eyes.of(charger_voltage_V, "voltage")}`;
  if (charging.taken_Ah <= 0 && to_full_h !== null) return `${charger} has nothing to do: the battery is full.`;
  if (to_full_h === null) {
    return charging.ended_by === "management"
      ? `${charger} does not fill this battery: the battery's own protection disconnects at ${share(charging)} of the charge.`
      : `${charger} does not fill this battery in two weeks.`;
  }
  const missing = `${figures(charging.given_Ah)} Ah for the ${figures(charging.taken_Ah)} Ah that are missing`;
  const full = `${charger} has this battery full in about ${hoursUp(to_full_h, eyes)}; it gives ${missing}.`;
  const tapers = to_full_h - constant_current_h > SOON * to_full_h;
  if (!tapers || to_90_percent_h === null || to_90_percent_h === 0) return full;
  return `${full} It is at 90 % after about ${hoursUp(to_90_percent_h, eyes)}, and the last tenth goes in slowly.`;
}

/** A taper shorter than this share of the whole is not told. */
const SOON = 0.1;

const share = ({ state_of_charge_end }: ChargingInShort): string => `${figures(100 * state_of_charge_end)} %`;

/** Down: what a battery takes at most is not told more. */
const amps = (value: number | null): string => shown(directed(value ?? 0, 2, "down"), "A");

const FOOT3_pm3 = 35.3147;

/** Rounded up: what is let through may be more. */
function air(air_m3ph: number, { chainageUnit }: Eyes): string {
  const metric = `${figures(Math.ceil(10 * air_m3ph - 1e-6) / 10)} m³`;
  return chainageUnit === "ft" ? `${Math.ceil(FOOT3_pm3 * air_m3ph - 1e-6)} ft³ (${metric})` : metric;
}

const CAUTIONS: Record<
  ChargingCaution["code"],
  (caution: ChargingCaution, charging: ChargingInShort, eyes: Eyes) => string[]
> = {
  gas: (_, { gas }, eyes) =>
    gas
      ? [
          `Lead-acid gives off hydrogen, which explodes: open the battery box, let ${air(gas.air_m3ph, eyes)} of air an hour pass it, and keep sparks and flames away.`,
        ]
      : [],
  lithium_below_freezing: ({ limit }, _, eyes) => [
    `Do not charge it in this cold: below ${eyes.of(limit ?? 0, "temperature")} charging ruins a lithium battery. Warm it first; its own manual decides.`,
  ],
  lithium_cold_current: ({ limit }) => [
    `In this air lithium cells are charged with ${amps(limit)} at most; take a smaller current or warm the battery first.`,
  ],
  lithium_hot: ({ limit }, _, eyes) => [
    `It is too hot here to charge a lithium battery: let it cool below ${eyes.of(limit ?? 0, "temperature")} first.`,
  ],
  lead_acid_cold: () => ["In the cold lead-acid takes longer than that; by how much is not known."],
  current_above_usual: ({ limit }) => [
    `That is more current than such a battery is usually charged with, ${amps(limit)} at most; its data sheet decides.`,
  ],
  management_disconnects: ({ limit }) => [
    `The charger goes above the ${shown(limit ?? 0, "V")} at which the battery's own protection disconnects: it has the wrong volts for this battery.`,
  ],
};
