import type { BatteryRow } from "../../packages/sim-core/src/field/battery.rows.js";
import type { LocoDefinition } from "../../packages/sim-core/src/parts/files.keys.js";
import { CIRCUIT, LOCO, PLAN } from "./club.js";
import type { draws } from "./draws.js";

// Batteries made up and read: two of 12 V in series, as the invented loco has them, by equations written anew.

const HOUR_s = 3600;
/** Wells of one battery: how they are given in the files. */
const WELLS = { ah: 85, share: 0.4, rate_ph: 0.9 };
const ONE_ohm = 0.006;
const CUTOUT_V = 20.4;
const AIR_degC = 15;
/** 2 m of 16 mm² in all: 1.21 mohm a metre at 20 °C (IEC 60228, class 5). */
const CABLE_ohm = 2 * 0.00121 * (1 + 0.00393 * (AIR_degC - 20));

export const MADE_UP = {
  plan: { ...PLAN, air_temperature_degC: AIR_degC },
  loco: {
    ...LOCO,
    battery: { ...LOCO.battery, each: { ...LOCO.battery.each, resistance_ohm: ONE_ohm } },
    controller: { ...LOCO.controller, undervoltage_cutout_V: CUTOUT_V },
  } satisfies LocoDefinition,
  track: CIRCUIT,
};

/** Discover Battery's table, of two in series. */
const RESTED = [11.89, 12.06, 12.24, 12.45, 12.65].map((volts) => 2 * volts);
const straight = (y: readonly number[], at: number): number => {
  const i = Math.min(y.length - 2, Math.max(0, Math.floor(at)));
  return y[i]! + (y[i + 1]! - y[i]!) * (at - i);
};
const rested_V = (share: number) => straight(RESTED, 4 * share);

export interface MadeUp {
  charge: number;
  /** Of one battery at 25 °C. */
  resistance_ohm: number;
  health: number;
  table: number;
  kinetics: number;
  full: number;
  polarisation: number;
  cutout_V: number;
  air_degC: number;
  /** By how much more than usual cold takes of its charge, and adds to its resistance: shares of that. */
  coldCharge: number;
  coldOhm: number;
}

/** Capacity and resistance between 10 and 25 °C: 90 % at 10 °C; 1.4 times at 0 °C. */
const capacityIn = ({ air_degC, coldCharge }: MadeUp) => (1 - (0.1 * (25 - air_degC)) / 15) ** (1 + coldCharge);
const pack_ohm = ({ resistance_ohm, air_degC, coldOhm }: MadeUp): number =>
  2 * resistance_ohm * (1 + (0.4 * (25 - air_degC)) / 25) ** (1 + coldOhm);

/** Ampere-hours that it gives at a steady current until its cut-out: the wells by Euler's steps. */
function given_Ah(battery: MadeUp, amps: number, step_s = 4): number {
  const grown = battery.health * battery.kinetics * capacityIn(battery);
  const { share, rate_ph } = WELLS;
  const wells_Ah = WELLS.ah * grown;
  // The label: what full wells give in 20 h at the steady current that empties them then.
  const turns = 20 * rate_ph;
  const labelled = (share * turns) / (1 - Math.exp(-turns) + share * (turns - 1 + Math.exp(-turns)));
  const span = 1 / labelled;
  const begun_Ah = wells_Ah - (1 - battery.full) * wells_Ah * labelled;
  let [available, bound] = [share * begun_Ah, (1 - share) * begun_Ah];
  const twentyHour_A = (WELLS.ah * labelled) / 20;
  const foot_V = 2 * (6 * 1.75 + ONE_ohm * twentyHour_A);
  const loss_V = (pack_ohm(battery) + 2 * 0.004 * battery.polarisation) * amps;
  const end_V = battery.cutout_V + CABLE_ohm * amps;
  const own_V = (share: number) => battery.table * rested_V(share);
  const kneeShare = 1 - span * 0.85;
  for (let taken = 0; ; taken += (amps * step_s) / HOUR_s) {
    const onLabel = 1 - span * (1 - available / (share * wells_Ah));
    const emptiest = 1 - span;
    const emf_V =
      onLabel >= kneeShare
        ? own_V(onLabel)
        : foot_V + ((own_V(kneeShare) - foot_V) * (onLabel - emptiest)) / (kneeShare - emptiest);
    if (emf_V - loss_V <= end_V || available <= 0) return taken;
    const flow = (rate_ph * (share * bound - (1 - share) * available) * step_s) / HOUR_s;
    available += flow - (amps * step_s) / HOUR_s;
    bound -= flow;
  }
}

/** A battery that is what the files say, but for what nobody knows: all as far off as figures of their kinds are. */
export function madeUp({ even, normal }: ReturnType<typeof draws>): MadeUp {
  const table = normal();
  return {
    charge: 0.15 + 0.8 * even(),
    resistance_ohm: ONE_ohm * (0.7 + 1.3 * even()),
    health: 0.55 + 0.45 * even(),
    // Nine in ten between 0.992 and 1.016 of the table.
    table: 1 + (table < 0 ? (0.008 / 1.645) * table : (0.016 / 1.645) * table),
    kinetics: 1 + (0.04 / 1.96) * normal(),
    full: 1 - Math.abs(0.02 * normal()),
    polarisation: 1 + (0.25 / 1.96) * normal(),
    cutout_V: CUTOUT_V * (1 + (0.03 / 1.96) * normal()),
    air_degC: AIR_degC + (2 / 1.96) * normal(),
    coldCharge: (0.25 / 1.96) * normal(),
    coldOhm: (0.5 / 1.96) * normal(),
  };
}

/** Read with a meter of 0.4 % and a clamp of 2 %, each reading off by itself besides. */
export function readingsOf(
  battery: MadeUp,
  { normal }: ReturnType<typeof draws>,
  {
    loads = [12, 50],
    emptied_A = 14,
    scatter_V = 0,
  }: { loads?: number[]; emptied_A?: number; scatter_V?: number } = {},
): BatteryRow[] {
  const [voltmeter, clamp] = [1 + 0.004 * normal(), 1 + 0.02 * normal()];
  const volts = (true_V: number) => true_V * voltmeter + Math.hypot(0.001 * 24, 0.02) * normal();
  const amps = (true_A: number) => true_A * clamp + Math.hypot(0.01 * true_A, 0.4) * normal();
  const rest_V = battery.table * rested_V(battery.charge);
  return [
    { reading: "rested", voltage_V: volts(rest_V), current_A: null, charge_C: null },
    ...loads.map((true_A): BatteryRow => {
      const load_V = rest_V - pack_ohm(battery) * true_A + scatter_V * normal();
      return { reading: "load", voltage_V: volts(load_V), current_A: amps(true_A), charge_C: null };
    }),
    {
      reading: "emptied",
      voltage_V: null,
      current_A: amps(emptied_A),
      charge_C: given_Ah(battery, emptied_A) * HOUR_s * (1 + 0.02 * normal()),
    },
  ];
}
