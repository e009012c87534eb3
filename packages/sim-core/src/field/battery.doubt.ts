import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";
import { studentWithin } from "../numeric/student.js";
import type { Chemistry } from "../parts/battery.data.js";
import type { Battery } from "../parts/battery.js";
import { batteryKeys } from "../parts/battery.keys.js";
import { INSTRUMENT } from "../studies/trial/instruments.js";
import type { BatteryRow } from "./battery.rows.js";

/** Ranges of defaults hold nine in ten. */
const NINE_IN_TEN = 1.6448536269514722;

/** What a battery gives by its own kinetics hangs on how it was made and on its warmth: nineteen in twenty (no source). */
const KINETICS_sd = 0.04 / NINETEEN_IN_TWENTY;

/**
 * A charger that says full has left out a little, and never put in too much: the half of a normal distribution of this width
 * (common practice, no source), which has its mean beside full.
 */
const FULL = 0.02;
const FULL_sd = FULL * Math.sqrt(1 - 2 / Math.PI);
const FULL_mean = FULL * Math.sqrt(2 / Math.PI);

/**
 * What cold takes from the charge is told of lifepo4 by "at least" figures, so that it may be anything down to none; of lead-acid
 * between 0.7 and 0.8 % a kelvin by one sheet. Its resistance: a fifth to two fifths at 0 °C, from memory. Nineteen in twenty.
 */
const COLD_CHARGE: Readonly<Record<Chemistry, readonly [more: number, less: number]>> = {
  "lead-acid": [0.25, 0.25],
  lifepo4: [0, 1],
  other: [0, 0],
};
const COLD_OHM = 0.5;

/** What lies to one side of where it is taken to be: the middle of its doubt, in its standard deviations. */
export const ABOUT: Readonly<Record<string, number>> = { full: -FULL_mean / FULL_sd };

/** The readings as they would be, were what they are read with so far off. */
export interface Read {
  readonly rows: readonly BatteryRow[];
  /** The rested volts of the chemistry's own table, as a factor. */
  readonly table: number;
  /** What it gives by its kinetics, as a factor. */
  readonly kinetics: number;
  /** The charge that a run to the cut-out begins with. */
  readonly full: number;
  /** By how much more than told the air takes from its charge and adds to its resistance: shares of what is told. */
  readonly coldCharge: number;
  readonly coldOhm: number;
}

/** @param off by name: `volts.3` is the chance of the fourth row's volts, `volts` the meter's own, a share */
export function moved(rows: readonly BatteryRow[], off: Readonly<Record<string, number>>): Read {
  const by = (name: string) => off[name] ?? 0;
  return {
    rows: rows.map((row, i) => ({
      ...row,
      voltage_V: row.voltage_V === null ? null : row.voltage_V * (1 + by("volts")) + by(`volts.${i}`),
      current_A: row.current_A === null ? null : row.current_A * (1 + by("amps")) + by(`amps.${i}`),
      charge_C: row.charge_C === null ? null : row.charge_C * (1 + by("charge")),
    })),
    table: 1 + by("table"),
    kinetics: 1 + by("kinetics"),
    full: Math.min(1, 1 + by("full")),
    coldCharge: by("coldCharge"),
    coldOhm: by("coldOhm"),
  };
}

/** What is read or taken, and how far off it may be: one standard deviation. */
export interface Input {
  readonly name: string;
  readonly sd: number;
  /** To its other side, where that is another. */
  readonly below_sd?: number;
}

/** Inputs so many standard deviations off. */
export const offBy = (inputs: readonly Input[], z: Readonly<Record<string, number>>): Record<string, number> =>
  Object.fromEntries(
    inputs.map(({ name, sd, below_sd = sd }) => [name, (z[name] ?? 0) * ((z[name] ?? 0) < 0 ? below_sd : sd)]),
  );

/**
 * What readings may be off by.
 * @param rms of the loads' volts off their straight line: what the meters cannot have done, the loads did
 * @param tabled whether the files give the battery's own rested volts, whose doubt is then among the files'
 */
export function meteredBy(
  rows: readonly BatteryRow[],
  { voltageStep_V = 0, currentStep_A = 0 }: { voltageStep_V?: number; currentStep_A?: number },
  own: Battery,
  rms: number,
  tabled: boolean,
): Input[] {
  const { voltmeter, ammeter } = INSTRUMENT;
  // A reading rounded to a step lies anywhere within half of it: JCGM 100:2008, 4.3.7.
  const rounded = (step: number) => step / Math.sqrt(12);
  const volt_sd = Math.hypot(voltmeter.share * own.nominal_V, voltmeter.besides, rounded(voltageStep_V));
  const amp_sd = (amps: number) => Math.hypot(ammeter.share * amps, ammeter.besides, rounded(currentStep_A));
  const loads = rows.filter(({ reading }) => reading === "load");
  const besides_sd = besideMeters(loads.length, rms, volt_sd);
  const [more, less] = COLD_CHARGE[own.chemistry];
  const [low, high] = batteryKeys.each.keys.rested_voltage.default.range as readonly [number, number];
  return [
    ...(tabled ? [] : [{ name: "table", sd: (high - 1) / NINE_IN_TEN, below_sd: (1 - low) / NINE_IN_TEN }]),
    { name: "volts", sd: voltmeter.gain },
    { name: "amps", sd: ammeter.gain },
    // Ampere-hours are counted by the same kind of meter.
    { name: "charge", sd: ammeter.gain },
    { name: "kinetics", sd: KINETICS_sd },
    { name: "full", sd: FULL_sd },
    { name: "coldCharge", sd: more / NINETEEN_IN_TWENTY, below_sd: less / NINETEEN_IN_TWENTY },
    { name: "coldOhm", sd: COLD_OHM / NINETEEN_IN_TWENTY },
    ...rows.flatMap(({ reading, voltage_V, current_A }, i) => [
      ...(voltage_V === null
        ? []
        : [{ name: `volts.${i}`, sd: Math.hypot(volt_sd, reading === "load" ? besides_sd : 0) }]),
      ...(current_A === null ? [] : [{ name: `amps.${i}`, sd: amp_sd(current_A) }]),
    ]),
  ];
}

/**
 * How far loads are off their line besides what meters do; few of them tell a spread poorly, which Student's distribution
 * counts. Two have none.
 */
function besideMeters(loads: number, rms: number, meter_sd: number): number {
  if (loads < 3) return 0;
  const freedom = loads - 2;
  const beyond = (rms * rms * loads) / freedom - meter_sd * meter_sd;
  return beyond > 0 ? (Math.sqrt(beyond) * studentWithin(freedom)) / NINETEEN_IN_TWENTY : 0;
}
