import { brakes, limits } from "@rideon/sim-core";
import { type Files, planOf } from "../../work/files.js";
import { type Day, restOfDay } from "./facts.js";

/** What the page asks of its worker: a turn of its controls. */
export interface Asked {
  turn: number;
  files: Files;
}

/** What takes longer, for that turn. */
export interface Done {
  turn: number;
  day: Day;
}

/** What could not be worked out for that turn, and why. */
export interface Failed {
  turn: number;
  failed: string;
}

/**
 * The worker's part. A turn that is overtaken by the next is given up at its next pause, or each step of a hand on a
 * control would wait for all before it.
 * @param tell called with the answers to a turn that no other has overtaken
 */
export function answering(tell: (done: Done) => void): (asked: Asked) => Promise<void> {
  let newest = 0;
  return async ({ turn, files }) => {
    newest = turn;
    const overtaken = async () => {
      await new Promise((othersHeard) => setTimeout(othersHeard));
      return turn !== newest;
    };
    if (await overtaken()) return;
    const plan = planOf(files);
    const may = limits(files);
    if (await overtaken()) return;
    const stops = brakes(plan, { greatest: false, rails: "worse" });
    if (await overtaken()) return;
    tell({ turn, day: { brakes: stops, limits: may, ...restOfDay(files) } });
  };
}
