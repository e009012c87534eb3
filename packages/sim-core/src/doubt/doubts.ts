import type { Default, Range } from "../defaults.js";
import { type Assumed, keyAt } from "../errors.js";
import { type Bounds, fieldName, type Key, type Keys } from "../keys.js";
import { below } from "../numeric/normal.js";
import { NINETEEN_IN_TWENTY } from "../numeric/quantile.js";
import { locoKeys, planKeys } from "../parts/files.keys.js";
import type { PlanFiles } from "../studies/limits/limits.js";
import { madePlan } from "../train/plan.js";
import { GRIP, kindOfGiven, type Measuring, measuringOf, movesNothing } from "./book.js";
import type { TypedDoubt } from "./typed.js";

/** A figure that is in doubt. */
export interface Doubtful {
  /** Its key, with `*` for every place in a list: those move together. */
  readonly path: string;
  /** How its doubt is known: typed beside it, by the kind of thing it was read from, or as the range of a default. */
  readonly by: "typed" | "kind" | "default";
  /** Its own figure; of a table, 1. Of several that move together, the first's. */
  readonly middle: number;
  /** What it is at `z` standard deviations from its middle. */
  readonly at: (middle: number, z: number) => number;
  /** How a builder measures it, and how many times as wide its doubt is then. */
  readonly measured: (Pick<Measuring, "how"> & { readonly times: number }) | null;
}

/** Nine in ten of a normal distribution lie within so many standard deviations. */
const NINE_IN_TEN = 1.6448536269514722;

/** `loco.gears.*.efficiency` of `loco.gears.2.efficiency`. */
export const groupOf = (path: string): string => path.replaceAll(/\.\d+(?=\.|$)/g, ".*");

type At = Doubtful["at"];

/**
 * The figures of a plan that are in doubt, each once: what was typed with its doubt, what was given by the kind it is, and
 * what is assumed by the range of its default. Figures that move together are one: like vehicles have one rolling
 * resistance, all batteries of a pack are alike, passengers are drawn one by one.
 * @param assumed what the files leave out; as a whole plan finds it unless told
 * @throws InputError
 */
export function doubtOf(files: PlanFiles, assumed: readonly Assumed[] = assumedIn(files)): Doubtful[] {
  const found = new Map<string, Doubtful>();
  const add = (path: string, by: Doubtful["by"], at: At, middle: number) => {
    const group = groupOf(path);
    if (!found.has(group)) found.set(group, { path: group, by, middle, at, measured: measuredBy(group, at, middle) });
  };
  for (const [path, key, value] of givenIn(files)) {
    const typed = files.doubts?.[path];
    if (typed) add(path, "typed", atTyped(typed, key), value);
    else {
      const { share = 0, amount = 0 } = kindOfGiven(groupOf(path)) as { share?: number; amount?: number };
      if (share > 0 && value !== 0) {
        add(
          path,
          "kind",
          clamped(key, (middle, z) => middle * (1 + (share / NINETEEN_IN_TWENTY) * z)),
          value,
        );
      } else if (amount > 0)
        add(
          path,
          "kind",
          clamped(key, (middle, z) => middle + (amount / NINETEEN_IN_TWENTY) * z),
          value,
        );
    }
  }
  const { plan } = files;
  for (const { key: path, amount } of assumed) {
    const key = keyAt(path);
    if (amount === undefined || !key?.default || movesNothing(path) || isAlike(path, files)) continue;
    const range = rangeOf(key.default, hintsOf(path, files));
    if (range) add(path, "default", atRange(range, key), amount);
  }
  if (plan.track.adhesion === undefined) add("plan.track.rail", "default", split(1, GRIP), 1);
  if ((plan.passengers ?? 0) > 0) add("plan.passengers", "default", (middle, z) => middle + z, 1);
  return [...found.values()];
}

const assumedIn = ({ plan, loco, track, tables }: PlanFiles): readonly Assumed[] =>
  madePlan(plan, loco, track, tables).notes.assumed;

/** A like vehicle's bearings roll as the loco's do: no doubt of their own. */
function isAlike(path: string, { plan, loco }: PlanFiles): boolean {
  const [, row] = /^plan\.cars\.(\d+)\.(?:rolling|rolling_per_speed|breakaway)$/.exec(path) ?? [];
  if (row === undefined) return false;
  const own = plan.cars?.[Number(row) - 1]?.bearings;
  return own === undefined || own === (loco.resistance?.bearings ?? "ball");
}

/** What picks a number among those of a default that has several. */
function hintsOf(path: string, { loco }: PlanFiles): string[] {
  const geared = loco.gears?.some(({ teeth }) => teeth !== undefined) ? "chain" : "gearbox";
  const cable = path.includes("motor_cable") ? "motor_m" : "battery_m";
  return [loco.battery?.chemistry ?? "", loco.resistance?.bearings ?? "ball", geared, cable, "layshaft_kgm2"];
}

/** In times the default's number, or from it where that is 0. */
interface Spread {
  readonly value: number;
  readonly range: readonly [low: number, high: number];
}

function rangeOf(from: Default, hints: readonly string[]): Spread | null {
  const one = (value: unknown, range: unknown): Spread | null =>
    Array.isArray(range) && typeof value === "number" ? { value, range: range as [number, number] } : null;
  if (from.is === "taken") return one(1, from.range);
  if (typeof from.value !== "object") return one(from.value, from.range);
  const cases = Object.entries(from.value).flatMap(([name, value]) => {
    const spread = one(value, (from.range as Readonly<Record<string, Range>>)[name]);
    return spread ? [{ name, spread }] : [];
  });
  const width = ({ value, range: [low, high] }: Spread) => (value === 0 ? 0 : (high - low) / Math.abs(value));
  const hinted = cases.find(({ name }) => hints.includes(name));
  return (hinted ?? cases.sort((a, b) => width(b.spread) - width(a.spread))[0])?.spread ?? null;
}

/** Nine in ten within the range, its middle where the default stands: each side has a width of its own. */
function atRange({ value, range: [low, high] }: Spread, key: Key): At {
  if (value > 0 && low > 0) return clamped(key, split(value, [low, high]));
  return clamped(key, (middle, z) => middle + ((z < 0 ? value - low : high - value) / NINE_IN_TEN) * z);
}

/** By logarithms: what cannot be negative never is. */
const split =
  (value: number, [low, high]: readonly [number, number]): At =>
  (middle, z) =>
    middle * Math.exp(((z < 0 ? Math.log(value / low) : Math.log(high / value)) / NINE_IN_TEN) * z);

const atTyped = (doubt: TypedDoubt, key: Key): At =>
  clamped(
    key,
    doubt.spread === "normal"
      ? (middle, z) => middle + (doubt.half / NINETEEN_IN_TWENTY) * z
      : (_, z) => doubt.low + (doubt.high - doubt.low) * below(z),
  );

/** No figure leaves the bounds of its key. */
function clamped(key: Key, at: At): At {
  const { min, above, max, below: under } = key as Bounds;
  const least = min ?? (above === undefined ? Number.NEGATIVE_INFINITY : above + 1e-9);
  const most = max ?? (under === undefined ? Number.POSITIVE_INFINITY : under - 1e-9);
  return (middle, z) => (z === 0 ? middle : Math.min(most, Math.max(least, at(middle, z))));
}

function measuredBy(group: string, at: At, middle: number): Doubtful["measured"] {
  const measuring = measuringOf(group);
  if (!measuring) return null;
  const half = Math.max(
    Math.abs(at(middle, NINETEEN_IN_TWENTY) - middle),
    Math.abs(at(middle, -NINETEEN_IN_TWENTY) - middle),
  );
  const share = middle === 0 ? 1 : half / Math.abs(middle);
  return { how: measuring.how, times: Math.min(1, measuring.share / share) };
}

/** Every number that the definitions give, with its path, its key and its value; of a table of numbers, 1. */
function givenIn({ plan, loco }: PlanFiles): [path: string, key: Key, value: number][] {
  const given: [string, Key, number][] = [];
  const look = (path: string, key: Key, value: number) => {
    given.push([path, key, value]);
    return value;
  };
  withNumbers(planKeys, plan, "plan", look);
  withNumbers(locoKeys, loco, "loco", look);
  return given;
}

/** The same definition, each of its numbers as `change` has it; tables of numbers are changed as a whole, by a factor. */
export function withNumbers<T extends object>(
  keys: Keys,
  definition: T,
  path: string,
  change: (path: string, key: Key, value: number) => number,
): T {
  const changed = { ...definition } as Record<string, unknown>;
  for (const [name, key] of Object.entries(keys)) {
    const field = fieldName(name, key);
    const value = changed[field];
    const at = `${path}.${name}`;
    if (value === undefined || value === null) continue;
    if (key.kind === "quantity" || key.kind === "number") changed[field] = change(at, key, value as number);
    else if (key.kind === "map") changed[field] = withNumbers(key.keys, value as object, at, change);
    else if (key.kind === "list")
      changed[field] = (value as object[]).map((item, i) => withNumbers(key.keys, item, `${at}.${i + 1}`, change));
    else if (key.kind === "capacity" || key.kind === "voltage_table") {
      const factor = change(at, { ...key, min: 0.1, max: 10 } as Key, 1);
      changed[field] = key.kind === "capacity" ? scaledCapacity(value, factor) : scaledVolts(value, factor);
    }
  }
  return changed as T;
}

function scaledCapacity(value: unknown, factor: number): unknown {
  const one = (each: Record<string, number>) =>
    Object.fromEntries(Object.entries(each).map(([name, of]) => [name, /^capacity/.test(name) ? of * factor : of]));
  return Array.isArray(value) ? value.map(one) : one(value as Record<string, number>);
}

const scaledVolts = (value: unknown, factor: number): unknown =>
  (value as [number, number][]).map(([share, volts]) => [share, volts * factor]);
