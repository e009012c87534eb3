import type { Notes, SizeAnswer } from "@rideon/sim-core";
import type { Day, Lap } from "../questions/report/facts.js";
import type { Progress } from "../words/progress.js";
import type { ClimbTold, Files } from "./files.js";
import { onThread } from "./thread.js";

/** What many sums or short runs answer. */
export interface Works {
  climb: ClimbTold;
  /** And what it takes for granted beyond what the files leave out. */
  size: { answer: SizeAnswer; notes: Notes };
  /** All of the committee's page but what is simulated for it at the same time. */
  page: Lap & Omit<Day, "laps" | "brakes">;
}
export type Work = keyof Works;

/** What is to be worked out, of which files. */
export interface WorkJob extends Files {
  work: Work;
}

/**
 * Works it out on a thread of its own, so that an interrupt is heard at once and progress can be shown.
 * @throws RunError
 */
export const worked = <W extends Work>(
  work: W,
  { plan, loco, track, tables }: Files,
  onProgress?: (progress: Progress) => void,
): Promise<Works[W]> =>
  onThread(new URL("./worked.worker.js", import.meta.url), { work, plan, loco, track, tables }, "work", onProgress);
