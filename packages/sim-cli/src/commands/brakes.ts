import type { BrakesFlags } from "../options.js";
import { brakesInWords } from "../write/brakes.words.js";
import { simulated } from "./simulated.js";

/** Stopping distances from everywhere on the line, and where the train will not stay parked. @returns the exit status */
export const brakes = (path: string, flags: BrakesFlags): Promise<number> =>
  simulated("brakes", path, flags, brakesInWords);
