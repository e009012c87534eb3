import type { BrakesFlags } from "../../work/options.js";
import { simulated } from "../../work/simulated.js";
import { brakesInWords } from "./words.js";

/** Stopping distances from everywhere on the line, and where the train will not stay parked. @returns the exit status */
export const brakes = (path: string, flags: BrakesFlags): Promise<number> =>
  simulated("brakes", path, flags, brakesInWords);
