import type { GearsFlags } from "../options.js";
import { gearsInWords } from "../write/gears.words.js";
import { simulated } from "./simulated.js";

/** Sprockets from those to hand, tried in the plan's working. @returns the exit status */
export const gears = (path: string, flags: GearsFlags): Promise<number> =>
  simulated("gears", path, flags, gearsInWords);
