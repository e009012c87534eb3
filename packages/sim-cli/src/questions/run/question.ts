import type { RunFlags } from "../../work/options.js";
import { simulated } from "../../work/simulated.js";
import { runInWords } from "./words.js";

/** One working of the plan. @returns the exit status */
export const run = (path: string, flags: RunFlags): Promise<number> => simulated("run", path, flags, runInWords);
