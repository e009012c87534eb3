import type { Found, LimitsAnswer } from "@rideon/sim-core";

/** What draws of `limits` are asked with: where the longest stops are, and with how many aboard. */
export const foundIn = ({ stops, loaded, sight_m, logged }: LimitsAnswer): Found => ({
  loaded,
  sight_m,
  ...(typeof logged?.rolls_about === "number" && { rolling: logged.rolls_about }),
  hardest_m: [...new Set(stops.flatMap(({ from_m }) => from_m ?? []))],
});
