import { DRIVER_s } from "../../packages/sim-core/src/driver/lever.js";
import { breakOff, moveLever, shutLever, type Working } from "../../packages/sim-core/src/working.js";

/** A driver of our own for a run: what he does every tenth of a second. */
export type Driver = (w: Working) => void;

/** Power off from the start; done when the train has come to rest for good. */
export const coast: Driver = (w) => {
  shutLever(w);
  if (w.mode.train === 0) breakOff(w, "completed");
};

/** Lever full until a time, then as `coast`. */
export const pullUntil =
  (until_s: number): Driver =>
  (w) => {
    if (w.time_s < until_s - 1e-9) moveLever(w, 1, DRIVER_s);
    else coast(w);
  };

/** The first event of a kind; an error where there is none. */
export function eventOf(w: Working, kind: string) {
  const found = w.events.find((event) => event.kind === kind);
  if (!found) throw new Error(`no ${kind} among ${w.events.map((event) => event.kind).join(", ")}`);
  return found;
}
