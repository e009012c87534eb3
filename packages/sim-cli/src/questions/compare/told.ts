import { type Compared, formatPercent } from "@rideon/sim-core";
import { type Eyes, shortSpeed } from "../../words/eyes.js";

/** What each quantity is called. */
export const CALLED: Readonly<Record<Compared, string>> = {
  speed: "speed",
  motor_current: "motor current",
  battery_current: "battery current",
  battery_voltage: "battery volts",
  temperature: "motor's case",
  duty: "duty",
};

const DIMENSION = { motor_current: "current", battery_current: "current", battery_voltage: "voltage" } as const;

/** As it was read. */
export function readingTold(name: Compared, value: number, eyes: Eyes): string {
  if (name === "speed") return shortSpeed(value, eyes);
  if (name === "duty") return formatPercent(value);
  if (name === "temperature") return eyes.of(value, "temperature");
  return eyes.of(value, DIMENSION[name]);
}

/** A difference of two readings, without its sign. */
export function differenceTold(name: Compared, value: number, eyes: Eyes): string {
  const size = Math.abs(value);
  if (name === "temperature") return worth(eyes.warmth(size), name);
  if (name === "duty") return worth(`${plain(100 * size)} points`, name);
  return worth(name === "speed" ? shortSpeed(size, eyes) : eyes.of(size, DIMENSION[name]), name);
}

/** Decimals that a difference is worth, in the unit that is told: what is read with tells no more. */
const DECIMALS: Readonly<Record<Compared, number>> = {
  speed: 2,
  motor_current: 2,
  battery_current: 2,
  battery_voltage: 3,
  temperature: 1,
  duty: 1,
};

const plain = (value: number): string => String(Number(value.toPrecision(3)));

/** Two figures and no more decimals than it is worth. */
const worth = (text: string, name: Compared): string => {
  const told = text.replace(/\d+(?:\.\d+)?(?:e-?\d+)?/g, (number) =>
    String(Number(Number(Number(number).toPrecision(2)).toFixed(DECIMALS[name]))),
  );
  return /^0(?![.\d])/.test(told) ? "next to nothing" : told;
};

/** `1.4 A more`. */
export const moreTold = (name: Compared, value: number, eyes: Eyes): string =>
  `${differenceTold(name, value, eyes)} ${value < 0 ? "less" : "more"}`;
