import { type Dimension, quantity } from "@rideon/sim-core";
import type { Eyes } from "../words/eyes.js";

/** What an axis counts in: display = SI / size + zero. */
export interface Units {
  unit: string;
  size: number;
  zero?: number;
  /** Shown on the other side, for readers who think in it. */
  other?: Units;
}

const sized = (unit: string, dimension: Dimension): Units => ({ unit, size: quantity(`1 ${unit}`, dimension) });
const pair = (dimension: Dimension, own: string, other: string): Units => ({
  ...sized(own, dimension),
  other: sized(other, dimension),
});

export const plainly = (unit: string, size = 1): Units => ({ unit, size });

/** As the reader of these files thinks: speeds in what was typed, and the other beside it. */
export const unitsFor = ({ style, chainageUnit }: Pick<Eyes, "style" | "chainageUnit">) => {
  const feet = chainageUnit === "ft";
  const two = (dimension: Dimension, metric: string, imperial: string) =>
    feet ? pair(dimension, imperial, metric) : pair(dimension, metric, imperial);
  const celsius: Units = { unit: "°C", size: 1 };
  const fahrenheit: Units = { unit: "°F", size: 5 / 9, zero: 32 };
  return {
    speed: style === "imperial" ? pair("speed", "mph", "m/s") : pair("speed", "km/h", "mph"),
    length: two("length", "m", "ft"),
    force: two("force", "N", "lbf"),
    mass: two("mass", "kg", "lb"),
    temperature: feet ? { ...fahrenheit, other: celsius } : { ...celsius, other: fahrenheit },
    current: plainly("A"),
    voltage: plainly("V"),
    percent: plainly("%"),
    share: plainly("%", 0.01),
  };
};
export type AllUnits = ReturnType<typeof unitsFor>;

export const shownIn = (value: number, { size, zero = 0 }: Units): number => value / size + zero;
