import { type Notes, shown } from "../errors.js";
import { type Capacity, type Dimension, fieldName, type Key, type Keys, ratesOf, type Usual } from "../keys.js";
import { format } from "./format.js";
import { quantity } from "./units.js";

/** Discharge times that a capacity is stated for, s. */
const RATE_TIMES_s: Usual = [180, 360_000];

/**
 * Warns of every value far from what is met with for its key: of a slip in a unit, above all.
 * @param path the file's, `loco` or `plan`, or of the block that `definition` was read from
 */
export function lookForUnusual(notes: Notes, path: string, keys: Keys, definition: object): void {
  for (const [name, key] of Object.entries(keys)) {
    const value = (definition as Record<string, unknown>)[fieldName(name, key)];
    if (value === undefined) continue;
    const at = `${path}.${name}`;
    if (key.kind === "map") lookForUnusual(notes, at, key.keys, value as object);
    else if (key.kind === "list")
      for (const [i, item] of (value as object[]).entries()) lookForUnusual(notes, `${at}.${i + 1}`, key.keys, item);
    else {
      const odd = oddIn(key, value);
      if (odd) notes.warnings.push({ code: "unusual", path: at, message: `${at.replace(/^\w+\./, "")}: ${odd}` });
    }
  }
}

/** What is usual for a key, in words; nothing where it holds no numbers. */
export function usualInWords(key: Key): string | undefined {
  const usual = "usual" in key ? key.usual : undefined;
  return usual && rangeOf(usual, dimensionOf(key));
}

/** What is unusual about a value, the first that is; nothing where all of it is usual. */
function oddIn(key: Key, value: unknown): string | undefined {
  const usual = "usual" in key ? key.usual : undefined;
  const measured = (each: number) => (usual ? odd(each, usual, dimensionOf(key)) : undefined);
  switch (key.kind) {
    case "quantity":
    case "number":
    case "count":
      return measured(value as number);
    case "teeth":
      return firstOf(value as number[], measured);
    case "capacity":
      return (
        firstOf(ratesOf(value as Capacity), ({ capacity_C }) => measured(capacity_C)) ??
        firstOf(ratesOf(value as Capacity), ({ time_s = RATE_TIMES_s[0] }) => odd(time_s, RATE_TIMES_s, "time"))
      );
    case "voltage_table":
      return firstOf(value as [number, number][], ([, volts]) => measured(volts));
    default:
      return undefined;
  }
}

function dimensionOf(key: Key): Dimension | undefined {
  if (key.kind === "quantity") return key.dimension;
  return key.kind === "capacity" ? "charge" : key.kind === "voltage_table" ? "voltage" : undefined;
}

function firstOf<T>(values: readonly T[], look: (value: T) => string | undefined): string | undefined {
  for (const value of values) {
    const found = look(value);
    if (found !== undefined) return found;
  }
  return undefined;
}

function odd(value: number, usual: Usual, dimension?: Dimension): string | undefined {
  const [least, most, orNone] = usual;
  // Bounds are typed in one unit and values in another: what differs by rounding is the bound itself.
  const slack = 1e-9 * Math.abs(value);
  if ((value >= least - slack && value <= most + slack) || (orNone && value === 0)) return undefined;
  return `${told(value, dimension)} is unusual; usual is ${rangeOf(usual, dimension)}`;
}

function rangeOf([least, most, orNone]: Usual, dimension?: Dimension): string {
  const to = least === 0 ? "up to" : `${told(least, dimension)} to`;
  return `${to} ${told(most, dimension)}${orNone ? ", or 0" : ""}`;
}

/** As people read it, even what is so small or so large that nobody meets with it. */
function told(value: number, dimension?: Dimension): string {
  if (dimension === undefined) return shown(value);
  const [metric, imperial] = [format(value, dimension, "metric"), format(value, dimension, "imperial")];
  const [, figures = "", unit = ""] = /^(-?[\d.]+) (.*)$/.exec(metric) ?? [];
  const lost = (Number(figures) === 0 && value !== 0) || figures.length > LONGEST;
  if (lost && unit !== "") return `${shown(value / quantity(`1 ${unit}`, dimension))} ${unit}`;
  return metric === imperial ? metric : `${metric} (${imperial})`;
}

/** More figures than this are no help to anyone. */
const LONGEST = 10;
