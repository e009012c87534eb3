import type { RunFlags } from "../../work/options.js";
import { simulated } from "../../work/simulated.js";
import { lapsInWords } from "./words.js";

/** Laps until something ends the day. @returns the exit status */
export const laps = (path: string, flags: RunFlags): Promise<number> => simulated("laps", path, flags, lapsInWords);
