import type { BrakesAnswer, Found } from "@rideon/sim-core";

/** What draws of `brakes` are asked with: where the longest stops are. */
export const foundInBrakes = ({ worst, sight_m }: BrakesAnswer): Found => ({
  sight_m,
  hardest_m: [...new Set(worst.map(({ chainage_m }) => chainage_m))],
});
