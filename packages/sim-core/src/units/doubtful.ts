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

function plusMinus(
  text: string,
  middle: string,
  off: string,
  dimension: Dimension | undefined,
  read: (part: string) => Typed,
): TypedDoubtful {
  if (middle === "" || off === "") throw new UnitError(`${quoted(text)} breaks off at its ±; write it like 75 ± 10 kg`);
  if (/^[-+]/.test(off)) throw new UnitError(`${quoted(text)} has a sign after its ±; write it like 75 ± 10 kg`);
  // `75 ± 10 kg`: one unit for both.
  const unit = /[\d.]\s*([^\d\s].*)$/.exec(off)?.[1] ?? "";
  const bare = /^[-+]?\s*[\d.,\s/]+$/.test(middle);
  const typed = read(
    bare && unit !== "" && !(unit.startsWith("%") && dimension !== undefined) ? `${middle} ${unit}` : middle,
  );
  const share = /^([\d.]+)\s*%$/.exec(off)?.[1];
  const half =
    share !== undefined && !(dimension === undefined && /%/.test(bare ? off : middle))
      ? (Math.abs(typed.value) * Number(share)) / 100
      : widthOf(off, unit, typed, dimension, read);
  if (!(half >= 0) || !Number.isFinite(half)) throw new UnitError(`${quoted(text)} has no clear doubt after its ±`);
  return { ...typed, doubt: { spread: "normal", half } };
}

/** Of temperatures a difference: `15 ± 3 °C`. */
function widthOf(
  off: string,
  unit: string,
  typed: Typed,
  dimension: Dimension | undefined,
  read: (part: string) => Typed,
): number {
  const amount = unit === "" && typed.unit !== "" ? `${off} ${typed.unit}` : off;
  if (dimension !== "temperature") return Math.abs(read(amount).value);
  const name = unit === "" ? typed.unit : unit;
  return Math.abs(read(amount).value - read(`0 ${name}`).value);
}

function between(text: string, first: string, second: string, read: (part: string) => Typed): TypedDoubtful {
  const high = read(second);
  // `8 to 12 N/kN`: the unit stands once.
  const bare = /^[-+]?\s*[\d.,]+$/.test(first.trim());
  const unit = /[\d.]\s*([^\d\s].*)$/.exec(second)?.[1] ?? "";
  const low = read(bare && unit !== "" && !/^in\b/i.test(unit) ? `${first} ${unit}` : first);
  if (!(low.value < high.value)) {
    const turned = low.value === high.value ? "has two ends that are the same" : "is turned round";
    throw new UnitError(`${quoted(text)} ${turned}; the smaller comes first: ${second.trim()} to ${first.trim()}`);
  }
  return { ...high, value: (low.value + high.value) / 2, doubt: { spread: "even", low: low.value, high: high.value } };
}
