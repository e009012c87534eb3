import { FOOT_m, KMH_mps, type Logged, MPH_mps, nearest } from "@rideon/sim-core";

/** What a column of a log holds: a quantity, the time in seconds or by the clock, or where a lap begins. */
export interface LogHeading {
  of: Logged | "time" | "clock" | "lap";
  toSI(value: number): number;
}

const by =
  (size: number) =>
  (value: number): number =>
    value * size;

const units = (
  of: LogHeading["of"],
  sizes: Readonly<Record<string, number | ((value: number) => number)>>,
): [string, LogHeading][] =>
  Object.entries(sizes).map(([unit, size]) => [
    unit === "" ? of : `${of}_${unit}`,
    { of, toSI: typeof size === "number" ? by(size) : size },
  ]);

/** Every column that a log may have, by its name with its unit. */
export const LOG_HEADINGS: ReadonlyMap<string, LogHeading> = new Map([
  ...units("time", { s: 1, ms: 0.001, min: 60, h: 3600 }),
  ["time", { of: "clock", toSI: by(1) }],
  ["lap", { of: "lap", toSI: by(1) }],
  ...units("distance", { m: 1, km: 1000, ft: FOOT_m, yd: 3 * FOOT_m, mi: 5280 * FOOT_m }),
  ...units("speed", { mps: 1, kmh: KMH_mps, mph: MPH_mps, "m/s": 1, "km/h": KMH_mps }),
  ...units("motor_current", { A: 1, mA: 0.001 }),
  ...units("battery_current", { A: 1, mA: 0.001 }),
  ...units("battery_voltage", { V: 1, mV: 0.001 }),
  ...units("temperature", { C: 1, "°C": 1, F: (value) => (value - 32) / 1.8, "°F": (value) => (value - 32) / 1.8 }),
  ...units("duty", { "": 1, percent: 0.01, "%": 0.01 }),
]);

const LOWER = new Map([...LOG_HEADINGS].map(([name, heading]) => [name.toLowerCase(), heading]));

/** `Battery current (A)` is battery_current_A. */
const plainly = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replaceAll(/[()[\]]/g, " ")
    .trim()
    .replaceAll(/[\s_]+/g, "_");

export const headingOf = (name: string): LogHeading | undefined => LOWER.get(plainly(name));

/** A column that is meant for one of ours and is not: told, and not left out. */
export function meantFor(name: string): string | undefined {
  const plain = plainly(name);
  const quantities = [...new Set([...LOG_HEADINGS.values()].map(({ of }) => of as string))];
  const ours = quantities.find((each) => plain === each || plain.startsWith(`${each}_`));
  if (ours !== undefined && ours !== "time" && ours !== "lap")
    return `${ours} with its unit: ${namesOf(ours).join(", ")}`;
  if (/^(current|amps?)(_|$)/.test(plain)) return "motor_current_A or battery_current_A";
  if (/^(volts?|voltage)(_|$)/.test(plain)) return "battery_voltage_V";
  // Of a short name nearly anything is near.
  return plain.length < SHORT ? undefined : nearest(plain, [...LOG_HEADINGS.keys()]);
}

const SHORT = 6;

const namesOf = (quantity: string): string[] =>
  [...LOG_HEADINGS].flatMap(([name, { of }]) => (of === quantity && !/[°/%]/.test(name) ? [name] : []));

/** A column by a name of its own: `Batt A=battery_current A`. */
export interface Mapped {
  name: string;
  heading: LogHeading;
}

/** @returns why it will not do */
export function mappedIn(text: string): Mapped | string {
  const at = text.lastIndexOf("=");
  const name = text.slice(0, Math.max(0, at)).trim();
  const to = text.slice(at + 1).trim();
  const heading = headingOf(to);
  if (at > 0 && name !== "" && heading) return { name, heading };
  const near = at > 0 ? meantFor(to) : undefined;
  return `it is the column's own heading, = and what it holds, such as "Batt A=battery_current A"${near ? `; did you mean ${near}?` : ""}`;
}
