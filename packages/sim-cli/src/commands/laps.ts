import type { RunFlags } from "../options.js";
import { lapsInWords } from "../write/laps.words.js";
import { simulated } from "./simulated.js";

/** Laps until something ends the day. @returns the exit status */
export const laps = (path: string, flags: RunFlags): Promise<number> => simulated("laps", path, flags, lapsInWords);
