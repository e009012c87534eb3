import type { Outcome } from "../../event.js";
import type { LogSays } from "../../studies/limits/by-log.js";
import type { Plan } from "../../train/plan.js";
import type { Basis } from "./basis.js";
import { type ByCell, pieceOf } from "./cells.js";
import type { Covers } from "./covers.js";
import type { Journey } from "./journey.js";
import type { Placed } from "./place.js";
import type { QuantityCompared } from "./quantities.js";

/** By the sums the train ran faster there, or slower, than it was logged. */
export interface Strayed {
  for_m: number;
  at_m: number;
  logged_mps: number;
  predicted_mps: number;
}

/**
 * A train that does not come as far as the real one did does not agree, and neither does one that differs anywhere. Null
 * where nothing but the speed was logged, or too little of the line.
 */
export function agreement(
  outcome: Outcome,
  quantities: readonly QuantityCompared[],
  { enough }: Covers,
): boolean | null {
  if (outcome !== "completed" || quantities.some(({ within_doubt }) => !within_doubt)) return false;
  return enough && quantities.some(({ name }) => name !== "speed") ? true : null;
}

/** A place is told so much later than it was passed, one standard deviation, s: common practice, no source. */
const LATE_s = 0.7;
/** Errs by such a share of the way since it was last held, a train between lap marks by its uneven speed: common practice, no source. */
const WANDERS = { distance: 0.01, speed: 0.01, laps: 0.06 } as const;

/** By what it was placed, half way to where a lap mark holds it next. */
export function astray_m({ scale, by }: Placed, journey: Journey, { track }: Plan): number {
  const since_m = scale === null ? journey.length_m : Math.min(track.length_m, journey.length_m);
  return Math.hypot((LATE_s * journey.length_m) / journey.time_s, (WANDERS[by] * since_m) / 2);
}

export function strayedAt(strayed: readonly number[], { logged, predicted, cells }: Basis): Strayed | null {
  if (strayed.length === 0) return null;
  const off = (of: ByCell, i: number) => Math.abs(of.speed[i] - logged.speed[i]);
  const worst = strayed.reduce((most, i) => (off(predicted, i) > off(predicted, most) ? i : most));
  return {
    for_m: strayed.length * cells.cell_m,
    at_m: pieceOf(cells, worst) * cells.cell_m,
    logged_mps: logged.speed[worst],
    predicted_mps: predicted.speed[worst],
  };
}

/** Of a comparison. */
interface Said extends Pick<LogSays, "agrees" | "rolls" | "rolls_about" | "stiffens"> {
  readonly covers: Pick<Covers, "share" | "steepest">;
  readonly quantities: readonly QuantityCompared[];
}

/** What a log of this little current draws in the mean tells of no share, A. */
const LEAST_A = 0.5;

/** What the log says of the sums, for `limits`: by the battery's current, else by the motor's. */
export function logSays({
  agrees,
  covers: { share, steepest },
  quantities,
  rolls,
  rolls_about = null,
  stiffens,
}: Said): LogSays {
  const current = (["battery_current", "motor_current"] as const)
    .map((each) => quantities.find(({ name }) => name === each))
    .find((each) => each && each.predicted > LEAST_A);
  return {
    agrees,
    covers: { share, steepest },
    draws: current ? current.logged / current.predicted : null,
    rolls,
    rolls_about,
    stiffens,
  };
}
