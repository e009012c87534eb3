import type { TypedDoubt } from "../doubt/typed.js";
import { quoted } from "../errors.js";
import type { Dimension } from "../keys.js";
import { plainSpelling, UnitError } from "./parse.js";
import { readQuantity, readShare, type Typed } from "./units.js";

/** A value as typed, and the doubt that was typed with it. */
export interface TypedDoubtful extends Typed {
  doubt?: TypedDoubt;
}

const PLUS_MINUS = /\s*(?:±|\+\s*\/?\s*-)\s*/;
/** `8 to 12 N/kN`; `8 to 1` and `1 to 110` are ratios, as `8:1` is. */
const RANGE = /^(.+?)\s+to\s+(.+)$/i;
const RATIO = /^\s*(?:1\s+to\s+\d+|\d+(?:\.\d+)?\s+to\s+1)\s*$/i;

/**
 * As `readQuantity`, or of a pure number `readShare`, where the figure may be in doubt: `75 ± 10 kg` (nineteen in twenty lie
 * within), `12.4 V ± 2 %`, `4 to 6 mohm` (anywhere between, alike), `1 in 80 to 1 in 75`. `+-` and `+/-` are read as ±.
 * @param dimension absent for a pure number
 * @throws UnitError
 */
export function readDoubtful(text: string, dimension: Dimension | undefined, example?: string): TypedDoubtful {
  const read = (part: string): Typed =>
    dimension === undefined ? readShare(part, example) : readQuantity(part, dimension, example);
  const parts = plainSpelling(text).split(PLUS_MINUS);
  if (parts.length > 2) throw new UnitError(`${quoted(text)} has ± more than once; write it like 75 ± 10 kg`);
  const [middle = "", off] = parts;
  if (off !== undefined) return plusMinus(text, middle, off, dimension, read);
  const [, first, second] = RANGE.exec(middle) ?? [];
  if (first === undefined || second === undefined || (dimension === undefined && lookedAsRatio(middle)))
    return read(text);
  return between(text, first, second, read);
}

/** `0.9 to 1` is a range and `8 to 1` a ratio: a share of one is never written as a ratio. */
const lookedAsRatio = (text: string): boolean => RATIO.test(text) && !/^\s*0?\.\d/.test(text);

/** What follows the last figure: its unit; "" where there is none. */
const unitIn = (part: string): string => /[\d.]\s*([^\d\s.,/].*)$/.exec(part)?.[1]?.trim() ?? "";

/** A figure with no unit after it. */
const isBare = (part: string): boolean => /^[-+]?[\d.,\s/]+$/.test(part.trim());

function mustBeOneUnit(text: string, one: string, other: string): void {
  const names = (unit: string) => unit.replaceAll(/[\d.,/\s]+/g, " ");
  if (one !== "" && other !== "" && names(one) !== names(other))
    throw new UnitError(`${quoted(text)} mixes units; write both parts in one of them, such as 75 ± 10 kg`);
}

function plusMinus(
  text: string,
  middle: string,
  off: string,
  dimension: Dimension | undefined,
  read: (part: string) => Typed,
): TypedDoubtful {
  const like = "write it like 75 ± 10 kg";
  if (middle === "" || !/\d/.test(off)) throw new UnitError(`${quoted(text)} breaks off at its ±; ${like}`);
  if (/^[-+]/.test(off)) throw new UnitError(`${quoted(text)} has a sign after its ±; ${like}`);
  const [own, unit] = [unitIn(middle), unitIn(off)];
  const share = dimension !== undefined || own !== "%" ? /^([\d.]+)\s*%$/.exec(off)?.[1] : undefined;
  // `80 ± 5 %` of a pure number is from 75 to 85 %; `150 kg ± 2 %`, and `0.01 ± 20 %`, a share of the figure.
  const ofFigure = share !== undefined && (dimension !== undefined || (isBare(middle) && Number(middle) <= 1));
  if (ofFigure) {
    const typed = read(middle);
    return { ...typed, doubt: { spread: "normal", half: (Math.abs(typed.value) * Number(share)) / 100 } };
  }
  mustBeOneUnit(text, isBare(middle) ? "" : own, unit);
  const typed = read(isBare(middle) && unit !== "" ? `${middle} ${unit}` : middle);
  const half = widthOf(isBare(off) && typed.unit !== "" ? `${off} ${typed.unit}` : off, typed, dimension, read);
  if (!(half >= 0) || !Number.isFinite(half))
    throw new UnitError(`${quoted(text)} has no clear doubt after its ±; ${like}`);
  return { ...typed, doubt: { spread: "normal", half } };
}

/** Of temperatures a difference: `15 ± 3 °C`. */
function widthOf(off: string, typed: Typed, dimension: Dimension | undefined, read: (part: string) => Typed): number {
  const width = read(off).value;
  return Math.abs(dimension === "temperature" ? width - read(`0 ${typed.unit}`).value : width);
}

function between(text: string, first: string, second: string, read: (part: string) => Typed): TypedDoubtful {
  const unit = unitIn(second);
  // `8 to 12 N/kN`: the unit stands once.
  const once = isBare(first) && unit !== "" && !/^in\b/i.test(unit);
  if (!/^in\b|:/i.test(unit) && !once) mustBeOneUnit(text, isBare(first) ? "" : unitIn(first), unit);
  const low = read(once ? `${first} ${unit}` : first);
  const high = read(second);
  if (!(low.value < high.value)) {
    if (low.value === high.value) throw new UnitError(`${quoted(text)} has two ends that are the same; write it once`);
    const right = once
      ? `${second.replace(unit, "").trim()} to ${first.trim()} ${unit}`
      : `${second.trim()} to ${first.trim()}`;
    throw new UnitError(`${quoted(text)} is turned round; write the smaller first, ${right}`);
  }
  return { ...high, value: (low.value + high.value) / 2, doubt: { spread: "even", low: low.value, high: high.value } };
}
