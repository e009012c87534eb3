import { type Key, readDoubtful, UnitError } from "@rideon/sim-core";
import { UsageError } from "../../read/diagnostics.js";
import { dimensionOf, inUnit } from "./unit.js";

/** More of one key are a slip in a range. */
export const MOST_VALUES = 1_000_000;

const NUMBER = String.raw`-?(?:\d+\.?\d*|\.\d+)`;
const UNIT = String.raw`[^\d\s.-].*?`;
const RANGE = new RegExp(`^(${NUMBER})\\s*(${UNIT})??\\s*\\.\\.\\s*(${NUMBER})\\s*(${UNIT})?$`);
const STEP = new RegExp(`^(${NUMBER})\\s*(${UNIT})?$`);
/** `120..180 kg by 20`, `0.1..0.5by0.1`. */
const BY = /^(.+?)(?:\s+|(?<=[\d%]))by\s*(.*)$/;

/** A figure as typed, with its unit where it has one. */
interface Figure {
  figure: string;
  unit: string;
}

/** `0..12`, `24..48 V by 12`, `120 kg..180 kg by 20 lb`: every value of a range, both ends within; nothing where it is none. */
export function rangeOf(text: string, key: Key | undefined, said: string): string[] | undefined {
  const [, ends = text, stepped] = BY.exec(text) ?? [];
  const [, first, firstUnit = "", last, unit = ""] = RANGE.exec(ends) ?? [];
  if (first === undefined || last === undefined) return undefined;
  const [, by, byUnit = ""] = stepped === undefined ? [] : (STEP.exec(stepped.trim()) ?? []);
  const typed = `${first}..${last} ${unit || firstUnit}`.trim();
  const to = Number(last);
  const own = { key, unit, like: `write ${typed} by ${stepFor(Number(first), to)}`, said };
  if (stepped !== undefined && by === undefined)
    throw new UsageError(`${said}: ${stepped.trim() === "" ? "nothing" : stepped} is no step; ${own.like}`);
  const from = inLast({ figure: first, unit: firstUnit }, own);
  if (by === undefined && !(Number.isInteger(from) && Number.isInteger(to)))
    throw new UsageError(`${said}: from ${first} to ${last} by what? Say it: ${typed} by ${stepFor(from, to)}`);
  const step = Math.abs(by === undefined ? 1 : stepOf({ figure: by, unit: byUnit }, own));
  if (!(step > 0)) throw new UsageError(`${said}: by ${by} it never comes from ${first} to ${last}`);
  // A hair's breadth beyond the end is the end.
  const count = Math.floor(Math.abs(to - from) / step + 1e-9) + 1;
  if (count > MOST_VALUES) throw new UsageError(`${said}: that is more than ${MOST_VALUES} values`);
  return Array.from({ length: count }, (_, i) => {
    const value = Number((from + Math.sign(to - from) * i * step).toPrecision(12));
    return unit === "" ? String(value) : `${value} ${unit}`;
  });
}

interface Own {
  key: Key | undefined;
  /** Of the last figure: the values are told in it. */
  unit: string;
  like: string;
  said: string;
}

/** The first end in the unit of the last. @throws UsageError where the two are of different kinds */
function inLast({ figure, unit: typed }: Figure, own: Own): number {
  if (typed === "" || typed === own.unit) return Number(figure);
  return converted(`${figure} ${typed}`, own);
}

/** The step in that unit: of temperatures it is a difference. */
function stepOf({ figure, unit: typed }: Figure, own: Own): number {
  if (typed === "" || typed === own.unit) return Number(figure);
  return converted(`${figure} ${typed}`, own) - converted(`0 ${typed}`, own);
}

/** More figures than any file has, so that half a pound is no fraction without an end. */
const DIGITS = 8;

function converted(text: string, { key, unit, like, said }: Own): number {
  const into = key && inUnit(key, unit);
  try {
    if (key && into && unit !== "") return Number(into(readDoubtful(text, dimensionOf(key)).value).toPrecision(DIGITS));
  } catch (error) {
    if (!(error instanceof UnitError)) throw error;
  }
  throw new UsageError(
    `${said}: ${text} is not in the unit of the last value${unit === "" ? ", which has none" : `, ${unit}`}; ${like}`,
  );
}

const ROUND = [1, 2, 2.5, 5];
const [FEWEST, MOST] = [5, 10];

/** A round step that gives some five to ten values, both ends among them where one does. */
function stepFor(from: number, to: number): number {
  const span = Math.abs(to - from);
  if (!(span > 0)) return 1;
  const least = Math.floor(Math.log10(span)) - 2;
  const steps = [0, 1, 2].flatMap((i) => ROUND.map((each) => Number(`${each}e${least + i}`)));
  const fit = steps.filter((step) => {
    const count = Math.floor(span / step + 1e-9) + 1;
    return count >= FEWEST && count <= MOST;
  });
  const ends = fit.filter((step) => Math.abs(span / step - Math.round(span / step)) < 1e-9);
  return ends.at(-1) ?? fit[0] ?? span;
}
