import { drawnHeadlines, type Headline } from "@rideon/sim-core";
import type { OnProgress } from "./question.js";
import type { Share } from "./sureness.js";

/** Draws what a thread is given to draw. */
export const work = (
  { files, question, found, spread, from, to }: Share,
  onProgress: OnProgress,
): (Headline | null)[] =>
  drawnHeadlines(files, question, found, spread, from, to, () => onProgress({ doing: "drawing" }));
