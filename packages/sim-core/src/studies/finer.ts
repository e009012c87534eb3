import { OpenBooksError } from "../errors.js";

/** Halvings of the step after which it is not the step that leaves the books open. */
const HALVINGS = 3;

/** A short run at a coarse step; where its books do not close, at half of it, and so on. */
export function finerUntilClosed<T>(step_s: number, work: (step_s: number) => T): T {
  for (let n = 0; ; n++) {
    try {
      return work(step_s / 2 ** n);
    } catch (error) {
      if (!(error instanceof OpenBooksError) || n === HALVINGS) throw error;
    }
  }
}
