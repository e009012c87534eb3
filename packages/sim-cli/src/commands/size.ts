import { size as sized } from "@rideon/sim-core";
import type { PlanFlags } from "../options.js";
import { sizeInWords } from "../write/size.words.js";
import { answered } from "./answered.js";
import { openSizing } from "./opened.js";

/** What to buy for a train, its line, its speed and its hours. @returns the exit status */
export const size = (path: string, flags: PlanFlags): number =>
  answered(openSizing(path, flags), flags, {
    command: "size",
    work: ({ sizing }) => sized(sizing),
    inWords: sizeInWords,
  });
