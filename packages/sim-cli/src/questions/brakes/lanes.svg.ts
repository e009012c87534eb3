import type { BrakeSet, BrakesRow } from "@rideon/sim-core";
import { type Sheet, tag, textWidth_px, words } from "../../svg/draw.js";
import type { Seen } from "../../svg/parts.js";

/** Of a row of the `brakes` answer, what is drawn. */
export type StopRow = Pick<
  BrakesRow,
  "chainage_m" | "direction" | "gradient_percent" | "brakes" | "stops" | "distance_m" | "top_speed_mps"
>;

/** A row with its place on the picture's scale: from the start of the lap, whichever way. */
export interface Along extends StopRow {
  run_m: number;
}

/** Where a set stops the train beyond the picture or never. */
export interface Stretch {
  from_m: number;
  to_m: number;
  /** The longest stop; Infinity where it never stops. */
  distance_m: number;
  top_speed_mps: number;
}

/** Words, and the band below them. */
export const LANE_px = 27;
const BAND_px = 9;
/** A sheet narrower than this has no room for two units. */
const NARROW_px = 500;

export function offTop(rows: readonly Along[], set: BrakeSet, top_m: number): Stretch[] {
  const own = rows.filter(({ brakes }) => brakes === set);
  const stretches: Stretch[] = [];
  let open: Stretch | undefined;
  own.forEach((row, i) => {
    const distance_m = row.stops ? (row.distance_m ?? Number.POSITIVE_INFINITY) : Number.POSITIVE_INFINITY;
    if (distance_m <= top_m) {
      open = undefined;
      return;
    }
    if (!open) {
      open = { from_m: row.run_m, to_m: row.run_m, distance_m: 0, top_speed_mps: 0 };
      stretches.push(open);
    }
    open.to_m = own[i + 1]?.run_m ?? row.run_m;
    open.distance_m = Math.max(open.distance_m, distance_m);
    open.top_speed_mps = Math.max(open.top_speed_mps, row.top_speed_mps);
  });
  return stretches;
}

const worse = (a: Stretch, b: Stretch): Stretch =>
  b.distance_m > a.distance_m || (b.distance_m === a.distance_m && b.top_speed_mps > a.top_speed_mps) ? b : a;

/** Bands off the top of a panel; what happens is written above the worst. */
export function laneOf(
  { eyes }: Seen,
  stretches: readonly Stretch[],
  { set, name }: { set: BrakeSet; name: string },
  at: (run_m: number) => number,
  top: number,
  sheet: Sheet,
): string {
  const bands = stretches.map(({ from_m, to_m, distance_m }) => {
    const never = Number.isFinite(distance_m) ? undefined : set;
    return tag("rect", {
      x: at(from_m),
      y: top + LANE_px - BAND_px - 2,
      width: Math.max(3, at(to_m) - at(from_m)),
      height: BAND_px,
      "data-never": never,
    });
  });
  const worst = stretches.reduce(worse);
  const never = !Number.isFinite(worst.distance_m);
  const both = never ? eyes.speed(worst.top_speed_mps) : eyes.length(worst.distance_m);
  const most = sheet.width_px < NARROW_px ? both.replace(/ \(.*/, "") : both;
  const text = never ? `${name} never stops: reaches ${most}` : `${name} needs up to ${most}`;
  const size = 0.92 * sheet.font_px;
  const half = textWidth_px(text, size) / 2;
  const middle = (at(worst.from_m) + at(worst.to_m)) / 2;
  const x = Math.max(half + 2, Math.min(middle, sheet.width_px - half - 2));
  return (
    bands.join("") + words(x, top + 12, text, { "text-anchor": "middle", "font-weight": "bold", "font-size": size })
  );
}
