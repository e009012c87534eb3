import type { RunFlags } from "../options.js";
import { runInWords } from "../write/run.words.js";
import { simulated } from "./simulated.js";

/** One working of the plan. @returns the exit status */
export const run = (path: string, flags: RunFlags): Promise<number> => simulated("run", path, flags, runInWords);
