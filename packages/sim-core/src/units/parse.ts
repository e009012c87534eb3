import { cut, quoted } from "../errors.js";
import { type Powers, type Unit, unitNamed } from "./table.js";

/** Text that is not the quantity wanted; the message says what is wrong and what would be right. */
export class UnitError extends Error {
  override readonly name = "UnitError";
}

/** A number and its unit as read, in SI units whatever they may be. */
export interface Measure {
  value: number;
  powers: Powers;
  /** The first unit written, `mph` or `st`, and its size in SI units; "" where there is none. */
  unit: string;
  size: number;
}

const NO_POWERS: Powers = [0, 0, 0, 0, 0, 0];

/** One spelling for what people's keyboards offer: ½, ², Ω in both its code points, typographic signs and primes. */
export const plainSpelling = (text: string): string =>
  text
    .replace(/[¼-¾⅐-⅞]/g, (half) => ` ${half.normalize("NFKD").replace("⁄", "/")}`)
    .normalize("NFKC")
    .replace(/µ/g, "μ")
    .replace(/[′‘’]/g, "'")
    .replace(/''|[″“”]/g, '"')
    .replace(/[−–]/g, "-")
    .replace(/[·⋅∙•×]/g, "*")
    .replace(/\bper\b/g, "/")
    .replace(/\b(?:sq\.?|square)\s*(\p{L}+)/gu, "$1^2")
    // In `0.9 1/h` the one belongs to the unit.
    .replace(/(\d)\s+1\s*\/\s*(?=\p{L})/gu, "$1 /")
    .trim();

/** A unit as an answer repeats it: `mm2` as `mm^2`, a prime as `ft`. */
const spelt = (unit: string): string =>
  unit
    .trim()
    .replace(/^'$/, "ft")
    .replace(/^"$/, "in")
    .replace(/\s*\*\s*/g, " ")
    .replace(/(\p{L})(-?\d)/gu, "$1^$2");

/** Reads along a text; `at` is how far it has come. */
export interface Reader {
  readonly text: string;
  at: number;
}

const take = (reader: Reader, pattern: RegExp): RegExpExecArray | null => {
  pattern.lastIndex = reader.at;
  const found = pattern.exec(reader.text);
  if (found) reader.at = pattern.lastIndex;
  return found;
};

const FRACTION = /(?:(\d+)(?:\s+|-))?(\d+)\s*\/\s*(\d+)(?![\d.])/y;
const DECIMAL = /(?:[1-9]\d{0,2}(?:,\d{3})+(?![\d,])|\d+)(?:\.\d*)?(?:e[-+]?\d+)?|\.\d+(?:e[-+]?\d+)?/iy;

/** A number without sign: `35`, `1,000`, `0.5`, `1/2`, `7 1/4`. */
export function numberAt(reader: Reader): number | undefined {
  const fraction = take(reader, FRACTION);
  if (fraction) {
    const [, whole = "0", top, bottom] = fraction;
    if (Number(bottom) === 0) throw new UnitError(`${quoted(reader.text)} divides by nothing`);
    return Number(whole) + Number(top) / Number(bottom);
  }
  const decimal = take(reader, DECIMAL);
  if (!decimal) return undefined;
  const rest = reader.text.slice(reader.at);
  if (/^,\d/.test(rest)) {
    const mended = (decimal[0] + rest).replace(/^(\d+),(\d+).*/s, "$1.$2");
    throw new UnitError(`${quoted(reader.text)} has a comma where a point is wanted: ${cut(mended)}`);
  }
  if (/^[\d.,]/.test(rest)) throw new UnitError(`${quoted(reader.text)} has no clear number`);
  const value = Number(decimal[0].replaceAll(",", ""));
  if (!Number.isFinite(value)) throw new UnitError(`${quoted(reader.text)} is too large a number`);
  return value;
}

const NAME = /°\s?[CF]|[\p{L}°%‰]+|["']/uy;
// A bare digit is a power (`m2`, `s-1`), unless a further part begins with it (`5ft2in`).
const POWER = /\^\s*([-+]?\d)|(-[123]|[23])(?![\d.,]*[\p{L}"']|[\d./])/uy;
const JOIN = /\s*([*/]|-(?=\p{L}))\s*/uy;
const BLANKS = /\s*/y;

/** A product of units: `N m/A`, `kg·m²`, `V/(rad/s)`; stops where a number begins. */
function unitAt(reader: Reader, dimension: string | undefined): Unit {
  let size = 1;
  let powers: Powers = NO_POWERS;
  for (;;) {
    const join = take(reader, JOIN);
    if (!join) take(reader, BLANKS);
    const unit = factorAt(reader, dimension);
    if (!unit) {
      if (join) throw new UnitError(`${quoted(reader.text)} breaks off in the middle of its unit`);
      return { size, powers };
    }
    const sign = join?.[1] === "/" ? -1 : 1;
    size *= unit.size ** sign;
    const soFar = powers;
    powers = unit.powers.map((power, i) => soFar[i]! + sign * power) as unknown as Powers;
  }
}

function factorAt(reader: Reader, dimension: string | undefined): Unit | undefined {
  let unit: Unit;
  if (take(reader, /\(/y)) {
    unit = unitAt(reader, dimension);
    if (!take(reader, /\s*\)/y)) throw new UnitError(`${quoted(reader.text)} has a bracket that is not closed`);
  } else {
    const name = take(reader, NAME)?.[0].replace(/\s/g, "");
    if (name === undefined) return undefined;
    take(reader, /\.(?!\d)/y);
    const known = unitNamed(name, dimension);
    if (!known) throw new UnitError(`${quoted(name)} in ${quoted(reader.text)} is not a known unit`);
    unit = known;
  }
  const power = take(reader, POWER);
  if (!power) return unit;
  const n = Number(power[1] ?? power[2]);
  return { size: unit.size ** n, powers: unit.powers.map((p) => p * n) as unknown as Powers };
}

/**
 * A quantity of any kind: `4 mph`, `11 st 4 lb`, `1 h 20 min`, `-2 m/s`. Further parts must be of the same kind and
 * smaller. `dimension` decides between the meanings of a name (pounds on a torque wrench).
 */
export function measure(text: string, dimension?: string): Measure {
  const reader: Reader = { text: plainSpelling(text), at: 0 };
  const sign = take(reader, /([-+]?)\s*/y)?.[1] === "-" ? -1 : 1;
  const first = partAt(reader, dimension);
  if (!first) throw new UnitError(`${quoted(text)} does not begin with a number`);
  let last = first;
  let value = first.value;
  while (reader.at < reader.text.length) {
    const part = partAt(reader, dimension);
    const fits = part && part.unit !== "" && `${part.powers}` === `${first.powers}` && part.size < last.size;
    if (!fits) throw new UnitError(`${quoted(text)} does not end as a quantity should`);
    value += part.value;
    last = part;
  }
  return { ...first, value: sign * value };
}

function partAt(reader: Reader, dimension: string | undefined): Measure | undefined {
  const amount = numberAt(reader);
  if (amount === undefined) return undefined;
  const from = reader.at;
  const { size, powers } = unitAt(reader, dimension);
  return { value: amount * size, powers, size, unit: spelt(reader.text.slice(from, reader.at)) };
}
