import { quoted } from "../errors.js";
import type { Dimension } from "../keys.js";
import { among, kindOf, WANTED } from "./kinds.js";
import { measure, numberAt, plainSpelling, type Reader, UnitError } from "./parse.js";

export { UnitError } from "./parse.js";

/** A value as typed: in SI, and how to say another value in the same unit. */
export interface Typed {
  /** In the unit of `UNIT_OF`; a pure number for a share. */
  value: number;
  /** The (first) unit as typed; "" for a bare share. */
  unit: string;
  /** Another value of the same kind, in the unit that was typed. */
  inTypedUnit(value: number): string;
}

/**
 * Reads a quantity as people write it: `186 kg`, `7 1/4 in`, `11 st 4 lb`, `0.12 kg·m²`, `8 V/krpm`.
 * @returns the value in the unit of `UNIT_OF`: SI; temperature in °C, cable area in mm²
 * @param example a right one, for the errors
 * @throws UnitError saying what was found and what was wanted
 */
export const quantity = (text: string, dimension: Dimension, example?: string): number =>
  readQuantity(text, dimension, example).value;

/** As `quantity`, and tells the unit that was typed. */
export const readQuantity = (text: string, dimension: Dimension, example = WANTED[dimension].example): Typed =>
  withExample(example, () => {
    if (text.trim() === "") throw new UnitError("nothing is written here");
    if (dimension === "temperature") return temperature(text);
    return wireGauge(text, dimension) ?? product(text, dimension);
  });

/**
 * Reads a pure number: `0.010`, `80 %`, `1 in 110`, `12:48`, `9 N/kN`.
 * @throws UnitError
 */
export const share = (text: string, example?: string): number => readShare(text, example).value;

/** As `share`, and tells the unit that was typed. */
export const readShare = (text: string, example = "0.8, 80 % or 1 in 110"): Typed =>
  withExample(example, () => {
    if (text.trim() === "") throw new UnitError("nothing is written here");
    const ratio = ratioIn(text);
    if (ratio !== undefined) return { value: ratio, unit: "", inTypedUnit: (value) => shown(value, "") };
    const found = measure(text);
    if (!among(found.powers, [[0, 0, 0, 0, 0, 0]])) {
      throw new UnitError(`${quoted(text)} is ${kindOf(found)} where a pure number is wanted`);
    }
    const inTypedUnit = (value: number) => shown(value / found.size, found.unit);
    return { value: found.value, unit: found.unit, inTypedUnit };
  });

const shown = (value: number, unit: string): string => `${Number(value.toPrecision(4))} ${unit}`.trim();

function withExample(example: string, read: () => Typed): Typed {
  try {
    return read();
  } catch (error) {
    throw error instanceof UnitError ? new UnitError(`${error.message}; write it like ${example}`) : error;
  }
}

function product(text: string, dimension: Dimension): Typed {
  const wanted = WANTED[dimension];
  const found = measure(text, dimension);
  if (found.unit === "") throw new UnitError(`${quoted(text)} has no unit`);
  const inverse = among(found.powers, wanted.inverse);
  if (!inverse && !among(found.powers, wanted.powers)) {
    throw new UnitError(`${quoted(text)} is ${kindOf(found)} where ${wanted.called} is wanted`);
  }
  const perSI = wanted.perSI ?? 1;
  const value = inverse ? 1 / found.value : found.value * perSI;
  if (!Number.isFinite(value)) throw new UnitError(`${quoted(text)} is beyond all bounds`);
  const inTypedUnit = (own: number) => shown((inverse ? 1 / own : own / perSI) / found.size, found.unit);
  return { value, unit: found.unit, inTypedUnit };
}

/** The number that the whole of `figures` is. */
function numberIn(figures: string, text: string): number {
  const reader: Reader = { text: figures.trim(), at: 0 };
  const value = numberAt(reader);
  if (value === undefined || reader.at < reader.text.length) throw new UnitError(`${quoted(text)} has no clear number`);
  return value;
}

const RATIO = /^([-+]?)\s*([\d.][\d.,/ ]*?)\s*(?:in|:|to)\s*([\d.][\d.,/ ]*)$/i;

function ratioIn(text: string): number | undefined {
  const [, sign, top, bottom] = RATIO.exec(plainSpelling(text)) ?? [];
  if (top === undefined || bottom === undefined) return undefined;
  const value = numberIn(top, text) / numberIn(bottom, text);
  if (!Number.isFinite(value)) throw new UnitError(`${quoted(text)} divides by nothing`);
  return sign === "-" ? -value : value;
}

/** The SI Brochure's °C and K; °F has ice at 32 and steam at 212. */
const SCALES: readonly { names: RegExp; zero: number; perKelvin: number; unit: string }[] = [
  { names: /^(?:°\s?c|c|degc|oc|celsius|degrees? c(?:elsius)?)$/i, zero: 0, perKelvin: 1, unit: "°C" },
  { names: /^(?:°\s?f|f|degf|of|fahrenheit|degrees? f(?:ahrenheit)?)$/i, zero: 32, perKelvin: 9 / 5, unit: "°F" },
  { names: /^(?:k|kelvins?)$/i, zero: 273.15, perKelvin: 1, unit: "K" },
];

function temperature(text: string): Typed {
  const [, sign, figures = "", name = ""] = /^([-+]?)\s*([\d.,/ ]*)(.*)$/s.exec(plainSpelling(text)) ?? [];
  if (!/\d/.test(figures)) throw new UnitError(`${quoted(text)} does not begin with a number`);
  const number = numberIn(figures, text);
  if (name === "") throw new UnitError(`${quoted(text)} has no unit`);
  const scale = SCALES.find((each) => each.names.test(name));
  if (!scale) throw new UnitError(`${quoted(text)} is not a temperature`);
  const { zero, perKelvin, unit } = scale;
  const value = ((sign === "-" ? -number : number) - zero) / perKelvin;
  return { value, unit, inTypedUnit: (celsius) => shown(celsius * perKelvin + zero, unit) };
}

/** American Wire Gauge, `6 AWG` or `2/0 AWG`: diameter 0.127 mm × 92^((36 - n)/39) (ASTM B258). */
function wireGauge(text: string, dimension: Dimension): Typed | undefined {
  const found = /^(?:AWG\s*(\d+)(\/0)?|(\d+)(\/0)?\s*AWG)$/i.exec(text.trim());
  if (!found || dimension !== "cable_area") return undefined;
  const figures = found[1] ?? found[3] ?? "";
  const oughts = (found[2] ?? found[4]) ? Number(figures) : /^0+$/.test(figures) ? figures.length : 0;
  const n = oughts > 0 ? 1 - oughts : Number(figures);
  if (n < -3 || n > 40) throw new UnitError(`${quoted(text)} is no wire gauge: they go from 4/0 to 40`);
  const area_mm2 = (Math.PI / 4) * (0.127 * 92 ** ((36 - n) / 39)) ** 2;
  return { value: area_mm2, unit: "mm^2", inTypedUnit: (mm2) => shown(mm2, "mm^2") };
}
