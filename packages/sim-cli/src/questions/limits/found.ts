import type { Found, LimitsAnswer } from "@rideon/sim-core";

/** What draws of `limits` are asked with: where the longest stops are, and with how many aboard. */
export const foundIn = ({ stops, loaded, sight_m }: LimitsAnswer): Found => ({
  loaded,
  sight_m,
  hardest_m: [...new Set(stops.flatMap(({ from_m }) => from_m ?? []))],
});
