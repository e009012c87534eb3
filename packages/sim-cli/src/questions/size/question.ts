import { answered } from "../../work/answered.js";
import { openSizing } from "../../work/opened.js";
import type { PlanFlags } from "../../work/options.js";
import { worked } from "../../work/worked.js";
import { sizeInWords } from "./words.js";

/** What to buy for a train, its line, its speed and its hours. @returns the exit status */
export const size = async (path: string, flags: PlanFlags): Promise<number> =>
  answered(await openSizing(path, flags), flags, {
    command: "size",
    doing: "going round the line",
    async work({ reading, sizing }) {
      const { answer, notes } = await worked("size", reading);
      Object.assign(sizing.notes, notes);
      return answer;
    },
    inWords: sizeInWords,
  });
