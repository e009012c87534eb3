import type { GearsFlags } from "../../work/options.js";
import { simulated } from "../../work/simulated.js";
import { gearsInWords } from "./words.js";

/** Sprockets from those to hand, tried in the plan's working. @returns the exit status */
export const gears = (path: string, flags: GearsFlags): Promise<number> =>
  simulated("gears", path, flags, gearsInWords);
