import { FOOT_m, G_mps2, KMH_mps, MILE_m, MPH_mps } from "../parts/constants.js";
/**
 * The units people write, each with its exact size in SI units and the publication that fixes it. A name is looked up
 * as written, then in small letters, so that `KG` and `Volts` are read and `mW` is never taken for `MW`.
 *
 * Sources: "SI" is the SI Brochure (BIPM, 9th edition, 2019); "yard and pound" the international agreement of 1959,
 * in force in the UK as the Weights and Measures Act 1985, schedule 1, which also fixes mile, chain, stone,
 * hundredweight and ton; "weight" multiplies by the standard fall (3rd CGPM, 1901).
 */

/** Powers of kilogram, metre, second, ampere, kelvin and radian. The angle is kept, so that rpm is no 1/min. */
export type Powers = readonly [kg: number, m: number, s: number, A: number, K: number, rad: number];

export interface Unit {
  size: number;
  powers: Powers;
}

const NONE: Powers = [0, 0, 0, 0, 0, 0];
const MASS: Powers = [1, 0, 0, 0, 0, 0];
const LENGTH: Powers = [0, 1, 0, 0, 0, 0];
const TIME: Powers = [0, 0, 1, 0, 0, 0];
const CURRENT: Powers = [0, 0, 0, 1, 0, 0];
const KELVIN: Powers = [0, 0, 0, 0, 1, 0];
const ANGLE: Powers = [0, 0, 0, 0, 0, 1];
const TURNING: Powers = [0, 0, -1, 0, 0, 1];
const SPEED: Powers = [0, 1, -1, 0, 0, 0];
const FORCE: Powers = [1, 1, -2, 0, 0, 0];
const ENERGY: Powers = [1, 2, -2, 0, 0, 0];
const POWER: Powers = [1, 2, -3, 0, 0, 0];
const VOLTAGE: Powers = [1, 2, -3, -1, 0, 0];
const RESISTANCE: Powers = [1, 2, -3, -2, 0, 0];
const CHARGE: Powers = [0, 0, 1, 1, 0, 0];

const POUND_kg = 0.45359237;
const REV_rad = 2 * Math.PI;

const rows: readonly (readonly [names: string, size: number, powers: Powers])[] = [
  ["kg kilogram kilograms kilo kilos", 1, MASS], // SI
  ["g gram grams", 1e-3, MASS], // SI
  ["t tonne tonnes", 1000, MASS], // SI, table 8
  ["lb lbs pound pounds", POUND_kg, MASS], // yard and pound
  ["oz ounce ounces", POUND_kg / 16, MASS], // yard and pound
  ["st stone stones", 14 * POUND_kg, MASS], // Act of 1985
  ["cwt hundredweight", 112 * POUND_kg, MASS], // Act of 1985: the British one
  ["ton tons", 2240 * POUND_kg, MASS], // Act of 1985: the British one
  ["m metre metres meter meters", 1, LENGTH], // SI
  ["mm millimetre millimetres millimeter millimeters", 1e-3, LENGTH], // SI
  ["cm centimetre centimetres centimeter centimeters", 1e-2, LENGTH], // SI
  ["km kilometre kilometres kilometer kilometers", 1000, LENGTH], // SI
  ['in inch inches "', 0.0254, LENGTH], // yard and pound
  ["ft foot feet '", FOOT_m, LENGTH], // yard and pound
  ["yd yds yard yards", 0.9144, LENGTH], // yard and pound
  ["thou", 25.4e-6, LENGTH], // a thousandth of the inch
  ["ch chain chains", 20.1168, LENGTH], // Act of 1985: 22 yards
  ["mi mile miles", MILE_m, LENGTH], // Act of 1985: 1760 yards
  ["s sec secs second seconds", 1, TIME], // SI
  ["ms millisecond milliseconds", 1e-3, TIME], // SI
  ["min mins minute minutes", 60, TIME], // SI, table 8
  ["h hr hrs hour hours", 3600, TIME], // SI, table 8
  ["d day days", 86400, TIME], // SI, table 8
  ["mph", MPH_mps, SPEED], // mile and hour
  ["kph kmh", KMH_mps, SPEED], // kilometre and hour
  ["fps", FOOT_m, SPEED], // foot and second
  ["rad radian radians", 1, ANGLE], // SI
  ["rev revs revolution revolutions turn turns", REV_rad, ANGLE], // 2π rad
  ["deg degree degrees °", REV_rad / 360, ANGLE], // SI, table 8
  ["rpm", REV_rad / 60, TURNING], // revolution and minute
  ["krpm", (1000 * REV_rad) / 60, TURNING], // revolution and minute
  ["rps", REV_rad, TURNING], // revolution and second
  ["A amp amps ampere amperes", 1, CURRENT], // SI
  ["mA milliamp milliamps", 1e-3, CURRENT], // SI
  ["V volt volts", 1, VOLTAGE], // SI
  ["mV millivolt millivolts", 1e-3, VOLTAGE], // SI
  ["kV kilovolt kilovolts", 1000, VOLTAGE], // SI
  ["ohm ohms Ω", 1, RESISTANCE], // SI
  ["mohm mohms mΩ milliohm milliohms", 1e-3, RESISTANCE], // SI
  ["μohm uohm μΩ uΩ microohm microohms", 1e-6, RESISTANCE], // SI
  ["kohm kΩ", 1e3, RESISTANCE], // SI
  ["Mohm MΩ megohm megohms", 1e6, RESISTANCE], // SI; kept so that it is never taken for mΩ
  ["C coulomb coulombs", 1, CHARGE], // SI
  ["Ah Ahr", 3600, CHARGE], // ampere and hour
  ["mAh", 3.6, CHARGE], // ampere and hour
  ["J joule joules", 1, ENERGY], // SI
  ["kJ", 1000, ENERGY], // SI
  ["Wh", 3600, ENERGY], // watt and hour
  ["kWh", 3.6e6, ENERGY], // watt and hour
  ["W watt watts", 1, POWER], // SI
  ["mW milliwatt milliwatts", 1e-3, POWER], // SI
  ["kW kilowatt kilowatts", 1000, POWER], // SI
  ["MW megawatt megawatts", 1e6, POWER], // SI; kept so that it is never taken for mW
  ["hp bhp horsepower", 550 * FOOT_m * POUND_kg * G_mps2, POWER], // Watt's 550 ft lbf/s, with foot, pound and weight
  ["PS", 75 * G_mps2, POWER], // the metric horsepower: 75 kgf m/s
  ["N newton newtons", 1, FORCE], // SI
  ["mN", 1e-3, FORCE], // SI
  ["kN", 1000, FORCE], // SI
  ["lbf", POUND_kg * G_mps2, FORCE], // weight
  ["ozf", (POUND_kg / 16) * G_mps2, FORCE], // weight
  ["kgf kp", G_mps2, FORCE], // weight
  ["Nm", 1, ENERGY], // SI: newton and metre, written as one word
  ["mNm", 1e-3, ENERGY], // SI
  ["Ncm", 1e-2, ENERGY], // SI
  ["Nms", 1, [1, 2, -1, 0, 0, 0]], // SI
  ["Vs", 1, [1, 2, -2, -1, 0, 0]], // SI
  ["K kelvin kelvins °C degC oC", 1, KELVIN], // SI; a difference of temperature
  ["°F degF oF", 5 / 9, KELVIN], // a hundred and eighty of them between ice and steam, where °C has a hundred
  ["% percent", 1e-2, NONE], // SI, 5.4.7
  ["‰", 1e-3, NONE], // a thousandth
];

const asWritten = new Map<string, Unit>();
const inSmallLetters = new Map<string, Unit | undefined>();
for (const [names, size, powers] of rows) {
  for (const name of names.split(" ")) {
    const unit = { size, powers };
    asWritten.set(name, unit);
    const small = name.toLowerCase();
    const rival = inSmallLetters.get(small);
    // Two units that differ only in their capitals (mW, MW) are not guessed between.
    inSmallLetters.set(small, inSmallLetters.has(small) && rival?.size !== size ? undefined : unit);
  }
}

/** Names that mean something else where this dimension is wanted: nobody's torque wrench reads pound-masses. */
const LOCAL: Partial<Record<string, ReadonlyMap<string, Unit>>> = {
  torque: new Map<string, Unit>([
    ...["lb", "lbs", "pound", "pounds"].map((name) => [name, { size: POUND_kg * G_mps2, powers: FORCE }] as const),
    ...["lbft", "ftlb", "ftlbs", "ftlbf", "lbfft"].map(
      (name) => [name, { size: FOOT_m * POUND_kg * G_mps2, powers: ENERGY }] as const,
    ),
    ...["lbin", "inlb", "inlbs", "inlbf", "lbfin"].map(
      (name) => [name, { size: 0.0254 * POUND_kg * G_mps2, powers: ENERGY }] as const,
    ),
  ]),
  acceleration: new Map([["g", { size: G_mps2, powers: [0, 1, -2, 0, 0, 0] }]]),
};

/** The unit of this name where `dimension` is wanted, or nothing. */
export function unitNamed(name: string, dimension?: string): Unit | undefined {
  const small = name.toLowerCase();
  return LOCAL[dimension ?? ""]?.get(small) ?? asWritten.get(name) ?? inSmallLetters.get(small);
}
