import { OpenBooksError, REMEDY, RunError, shown } from "../errors.js";
import * as at from "../state.js";
import type { Working } from "../working.js";
import { energyBalance } from "./balance.js";

/**
 * No answer leaves the core unless every figure in it is a number and the books of every run are closed: whatever was
 * asked of it, it tells the truth or nothing.
 */

/** The books close to this share at the end of a working; on the way to its end, to the larger one. */
const RESIDUAL = 1e-5;
const ON_THE_WAY = 1e-3;

/** What stands at a place of the state vector: `BATTERY_SQUARE` is `battery square`. */
const PLACES: readonly string[] = Object.entries(at)
  .flatMap(([name, place]) => (typeof place === "number" && name !== "SIZE" ? [[place, name] as const] : []))
  .sort(([a], [b]) => a - b)
  .map(([, name]) => name.toLowerCase().replaceAll("_", " "));

/** @throws RunError naming what is no longer a number */
export function mustBeNumbers({ y, time_s }: Working): void {
  let sum = 0;
  for (let i = 0; i < y.length; i++) sum += y[i];
  if (Number.isFinite(sum)) return;
  for (let i = 0; i < y.length; i++) {
    if (Number.isFinite(y[i])) continue;
    throw new RunError(`at ${shown(time_s, "s")} "${PLACES[i]}" is no longer a number; ${REMEDY}`);
  }
}

/** @throws OpenBooksError where energy is not accounted for */
export function mustClose(w: Working, ended = true): void {
  const { residual_share } = energyBalance(w);
  if (Math.abs(residual_share) < (ended ? RESIDUAL : ON_THE_WAY)) return;
  const share = `${shown(100 * Math.abs(residual_share))} % of the energy`;
  throw new OpenBooksError(`at ${shown(w.time_s, "s")} ${share} is not accounted for ("residual_share"); ${REMEDY}`);
}

/** The answer, if every figure in it is a number. @throws RunError naming the figure that is none */
export function sound<A>(answer: A): A {
  const spoilt = spoiltIn(answer, "");
  if (!spoilt) return answer;
  const [name, value] = spoilt;
  throw new RunError(
    `"${name}" comes out as ${value}; look among the values of the files for one that is far from usual`,
  );
}

/** The first figure that is no number, and its path: `events.3.time_s`. */
function spoiltIn(value: unknown, path: string): [path: string, value: number] | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : [path, value];
  if (typeof value !== "object" || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const found = spoiltIn(inner, path === "" ? key : `${path}.${key}`);
    if (found) return found;
  }
  return undefined;
}
