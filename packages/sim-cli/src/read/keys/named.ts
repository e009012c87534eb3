import { type Key, keyAt } from "@rideon/sim-core";

/** The key that `--set` would take by this path, `loco.mass` or `cars.Coach.mass`: an item of a list goes by its number or its name. */
export function keyNamed(path: string): Key | undefined {
  const names = (path.startsWith("loco.") ? path : `plan.${path}`).split(".");
  const without = (i: number) => names.toSpliced(i, 1).join(".");
  const ways = [names.join("."), ...names.map((_, i) => without(i)).slice(2)];
  return ways.map(keyAt).find((key) => key !== undefined);
}

/** Is its value one figure, with or without a unit? */
export const isFigure = (key: Key | undefined): boolean =>
  key !== undefined && /^(?:quantity|capacity|number|count)$/.test(key.kind);
