import { type Compared, figures, formatPercent } from "@rideon/sim-core";
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
  if (name === "temperature") return twoFigures(eyes.warmth(size));
  if (name === "duty") return twoFigures(`${figures(100 * size)} points`);
  return twoFigures(readingTold(name, size, eyes));
}

/** The next figure of a difference is worth nothing. */
const twoFigures = (text: string): string =>
  text.replace(/\d+(?:\.\d+)?/g, (number) => String(Number(Number(number).toPrecision(2))));

/** `1.4 A more`. */
export const moreTold = (name: Compared, value: number, eyes: Eyes): string =>
  `${differenceTold(name, value, eyes)} ${value < 0 ? "less" : "more"}`;
