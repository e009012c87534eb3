import { type Dimension, type Key, quantity, UnitError } from "@rideon/sim-core";

/** Of a key whose value is one figure with a unit. */
export const dimensionOf = (key: Key | undefined): Dimension | undefined =>
  key?.kind === "quantity" ? key.dimension : key?.kind === "capacity" ? "charge" : undefined;

/** From a key's own unit into one that was typed; nothing for units such as rpm/V, in which twice the figure is half as much. */
export function inUnit(key: Key | undefined, unit: string): ((value: number) => number) | undefined {
  const dimension = dimensionOf(key);
  if (dimension === undefined) return unit === "%" ? (value) => 100 * value : (value) => value;
  try {
    const [none, one, two] = [0, 1, 2].map((figure) => quantity(`${figure} ${unit}`, dimension)) as [
      number,
      number,
      number,
    ];
    const even = Math.abs(two - one - (one - none)) < 1e-9 * Math.abs(two - none);
    return even ? (value) => (value - none) / (one - none) : undefined;
  } catch (error) {
    if (error instanceof UnitError) return undefined;
    throw error;
  }
}
