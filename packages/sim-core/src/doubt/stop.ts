import type { LimitsAnswer, StopRow } from "../studies/limits/answer.js";
import type { Band, Sureness } from "./bands.js";

/** The longest stop, as it is to be counted on. */
export interface StopToCountOn {
  /** Of the judgement: by whoever may be counted on, on the rail that stops are judged by. */
  readonly row: StopRow;
  /** The longer of the judgement's and of what nineteen in twenty stay below; null where it is none to count on. */
  readonly distance_m: number | null;
  /** The band, where there is one; and is that what makes it longer, or none? */
  readonly band: Band | null;
  readonly by_band: boolean;
  readonly within_sight: boolean;
}

/** Nineteen in twenty of the draws must stop at all. */
export const COUNTED_ON = 0.95;

/**
 * The stop to count on. The judgement counts bearings, gradients, drag and rail at their bad ends, and brakes and driver as
 * the files have them; the band counts the doubt of every figure, and each about its middle. The worse of the two is told.
 * @param sureness absent where it was not looked at: then the judgement's own is all there is
 * @returns undefined where there is no brake to count on
 */
export function stopToCountOn(
  { stops, counted, sight_m }: LimitsAnswer,
  sureness?: Sureness,
): StopToCountOn | undefined {
  const row = (["driver", "guard"] as const)
    .map((who) =>
      stops.find((each) => each.who === who && each.rail === counted.rail_stopping && each.outcome !== "no_brake"),
    )
    .find((each) => each !== undefined);
  if (!row) return undefined;
  const band = sureness?.bands["stop_m"];
  const own_m = row.distance_m;
  if (own_m === null || !band || sureness === undefined)
    return { row, distance_m: own_m, band: null, by_band: false, within_sight: row.outcome === "stops" };
  const told = (sureness.told_in["stop_m"] ?? 1) >= COUNTED_ON;
  const distance_m = told ? Math.max(own_m, band.p95) : null;
  return {
    row,
    distance_m,
    band: told ? band : null,
    by_band: !told || band.p95 > own_m,
    within_sight: row.outcome === "stops" && distance_m !== null && distance_m <= sight_m,
  };
}
