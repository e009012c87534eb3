import type { Opened } from "../../words/ready.js";

/** The plan, and the same with another loco. */
export interface PartsReady extends Opened {
  beside?: Opened;
}
