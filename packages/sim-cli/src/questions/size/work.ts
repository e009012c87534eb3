import { createSizing, type Notes, type SizeAnswer, size } from "@rideon/sim-core";
import type { Files } from "../../work/files.js";

/** What to buy, and what it takes for granted beyond what the files leave out. */
export interface SizeWorked {
  answer: SizeAnswer;
  notes: Notes;
}

export function work({ plan, loco, track, doubts }: Files): SizeWorked {
  const sizing = createSizing(plan, loco, track, doubts ? { doubts } : {});
  return { answer: size(sizing), notes: sizing.notes };
}
