import { bands, brakes, DRAWS, drawnHeadlines, limits, SEED, type Sureness } from "@rideon/sim-core";
import { type Files, planOf } from "../../work/files.js";
import { foundIn } from "../limits/found.js";
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

/** How sure that is: it follows when it is known. */
export interface Surely {
  turn: number;
  sureness: Sureness;
}

/** What could not be worked out for that turn, and why. */
export interface Failed {
  turn: number;
  failed: string;
}

/** Draws between two looks at whether the reader has moved on. */
const AT_A_TIME = 2;

/**
 * The worker's part. A turn that is overtaken by the next is given up at its next pause, or each step of a hand on a
 * control would wait for all before it.
 * @param tell called with the answers to a turn that no other has overtaken
 */
export function answering(tell: (done: Done | Surely) => void): (asked: Asked) => Promise<void> {
  let newest = 0;
  return async ({ turn, files }) => {
    newest = turn;
    const overtaken = async () => {
      await new Promise((othersHeard) => setTimeout(othersHeard));
      return turn !== newest;
    };
    if (await overtaken()) return;
    const plan = planOf(files);
    const rest = restOfDay(files);
    const may = limits(files, { climbed: rest.climb });
    if (await overtaken()) return;
    const stops = brakes(plan, { greatest: false, rails: "worse" });
    if (await overtaken()) return;
    tell({ turn, day: { brakes: stops, limits: may, ...rest } });
    const [question, found] = ["limits", foundIn(may)] as const;
    const spread = { count: DRAWS[question], seed: SEED, plain: false };
    const headlines: ReturnType<typeof drawnHeadlines> = [];
    for (let from = 0; from < spread.count; from += AT_A_TIME) {
      if (await overtaken()) return;
      headlines.push(...drawnHeadlines(files, question, found, spread, from, from + AT_A_TIME));
    }
    tell({ turn, sureness: bands(files, question, found, spread, headlines) });
  };
}
