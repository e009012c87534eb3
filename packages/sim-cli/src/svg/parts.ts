import type { Plan } from "@rideon/sim-core";
import type { Eyes } from "../words/eyes.js";
import type { Opened } from "../words/ready.js";
import { type AllUnits, unitsFor } from "./units.js";

/** What every picture of a plan needs: the plan, how its reader counts, and words for places. */
export interface Seen {
  plan: Plan;
  eyes: Eyes;
  units: AllUnits;
}

/** As the reader of a plan has it. */
export const seenBy = ({ plan, eyes }: Opened): Seen => ({ plan, eyes, units: unitsFor(eyes) });

/** Panels one below the other. @returns their marks and the height of all */
export function stacked<T>(
  items: readonly T[],
  height_px: (item: T) => number,
  draw: (item: T, top: number) => string,
): { body: string; height_px: number } {
  let at = 0;
  const parts = items.map((item) => {
    const part = draw(item, at);
    at += height_px(item);
    return part;
  });
  return { body: parts.join("\n"), height_px: at };
}
