import type { BrakeSet, BrakesRow } from "@rideon/sim-core";
import { type Sheet, tag, textWidth_px, words } from "../../svg/draw.js";
import type { Seen } from "../../svg/parts.js";

/** Of a row of the `brakes` answer, what is drawn. */
export type StopRow = Pick<
  BrakesRow,
  | "chainage_m"
  | "direction"
  | "gradient_percent"
  | "brakes"
  | "stops"
  | "outcome"
  | "distance_m"
  | "speed_mps"
  | "top_speed_mps"
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
  /** It comes to a stand, and rolls back past where the driver acted. */
  rollsBack: boolean;
  /** Does it gather speed on the way? */
  gathers: boolean;
  top_speed_mps: number;
}

/** So many times the speed it had is worth telling. */
const GATHERS = 1.1;

export const gathers = ({ speed_mps, top_speed_mps }: StopRow): boolean => top_speed_mps > GATHERS * speed_mps;

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
    const rollsBack = row.outcome === "rolls_back";
    if (open?.rollsBack !== rollsBack) {
      open = { from_m: row.run_m, to_m: row.run_m, distance_m: 0, rollsBack, gathers: false, top_speed_mps: 0 };
      stretches.push(open);
    }
    open.to_m = own[i + 1]?.run_m ?? row.run_m;
    // What runs away is told by the fastest, anything else by the longest: each with its own figures.
    const runsAway = gathers(row);
    const worse =
      runsAway === open.gathers
        ? runsAway
          ? row.top_speed_mps > open.top_speed_mps
          : distance_m > open.distance_m
        : runsAway;
    if (worse) Object.assign(open, { distance_m, gathers: runsAway, top_speed_mps: row.top_speed_mps });
  });
  return stretches;
}

const worse = (a: Stretch, b: Stretch): Stretch => {
  const bad = ({ distance_m, gathers, top_speed_mps }: Stretch) =>
    Number.isFinite(distance_m) ? (gathers ? 1e9 * top_speed_mps : distance_m) : 1e12 * (1 + top_speed_mps);
  return bad(b) > bad(a) ? b : a;
};

/** Bands off the top of a panel, black where it runs on and empty where it rolls back; written above the worst of each. */
export function laneOf(
  { eyes }: Seen,
  stretches: readonly Stretch[],
  { set, name }: { set: BrakeSet; name: string },
  at: (run_m: number) => number,
  top: number,
  sheet: Sheet,
): string {
  const bands = stretches.map(({ from_m, to_m, distance_m, rollsBack }) =>
    tag("rect", {
      x: at(from_m),
      y: top + LANE_px - BAND_px - 2,
      width: Math.max(3, at(to_m) - at(from_m)),
      height: BAND_px,
      ...(rollsBack ? { fill: "#fff", stroke: "#000", "stroke-width": 1.5, "stroke-dasharray": "3 2" } : {}),
      "data-never": Number.isFinite(distance_m) ? undefined : set,
    }),
  );
  const narrow = sheet.width_px < NARROW_px;
  const brief = (text: string) => (narrow ? text.replace(/ \(.*/, "") : text);
  const size = 0.92 * sheet.font_px;
  const label = (own: readonly Stretch[], text: (worst: Stretch) => string) => {
    if (own.length === 0) return [];
    const worst = own.reduce(worse);
    return [{ said: text(worst), middle: (at(worst.from_m) + at(worst.to_m)) / 2 }];
  };
  const on = stretches.filter(({ rollsBack }) => !rollsBack);
  const labels = [
    ...label(on, ({ distance_m, gathers, top_speed_mps }) => {
      const reaches = gathers || !Number.isFinite(distance_m) ? `reaches ${brief(eyes.speed(top_speed_mps))}` : "";
      if (!Number.isFinite(distance_m)) return `RUNS AWAY, ${reaches}`;
      return [brief(eyes.length(distance_m)), reaches].filter(Boolean).join(", ");
    }),
    ...label(
      stretches.filter(({ rollsBack }) => rollsBack),
      () => "rolls back",
    ),
  ]
    .sort((a, b) => a.middle - b.middle)
    .map(({ said, middle }, i, all) => {
      // Read one after the other they are one sentence about one set, and the next is of another.
      const told = `${i === 0 ? `${name}: ` : ""}${said}${i < all.length - 1 ? ";" : "."}`;
      const half = textWidth_px(told, size) / 2;
      return { told, half, x: Math.max(half + 2, Math.min(middle, sheet.width_px - half - 2)) };
    });
  const [left, right] = labels;
  // Side by side, no nearer than a letter.
  if (left && right) {
    right.x = Math.min(Math.max(right.x, left.x + left.half + right.half + size), sheet.width_px - right.half - 2);
    left.x = Math.min(left.x, right.x - right.half - left.half - size);
  }
  const written = labels.map(({ told, x }) =>
    words(x, top + 12, told, { "text-anchor": "middle", "font-weight": "bold", "font-size": size }),
  );
  return bands.join("") + written.join("");
}
