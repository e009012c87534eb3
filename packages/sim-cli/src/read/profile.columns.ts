import { FOOT_m, KMH_mps, MPH_mps } from "@rideon/sim-core";

/** A column that a profile may have. Of a `measure` only one column may be there. */
export interface Column {
  measure: "distance" | "rise" | "doubt" | "radius" | "limit" | "levelling" | "place";
  /** A whole column's number in SI; blank cells are given `blank`. */
  toSI: (value: number) => number;
  /** What a blank cell means; absent: it may not be blank. */
  blank?: number;
  /** Numbers that are wrong whatever the track, in words. */
  refuse?: (value: number) => string | undefined;
}

const by = (size: number) => (value: number) => value * size;
const positive = (what: string) => (value: number) => (value > 0 ? undefined : `${what} is more than 0`);
const radius = { measure: "radius", blank: 0, refuse: positive("a radius (either hand)") } as const;
/** Steeper than any rail that is taken. */
const MOST_DOUBT_percent = 100;
const doubted = (percent: number) =>
  percent >= 0 && percent <= MOST_DOUBT_percent ? undefined : "a doubt is from 0 up to 100 %, without a sign";
const limit = { measure: "limit", blank: Number.POSITIVE_INFINITY, refuse: positive("a limit") } as const;
// Inch, foot, yard and mile: international yard and pound agreement, 1959.
export const COLUMNS: ReadonlyMap<string, Column> = new Map<string, Column>([
  ["distance_m", { measure: "distance", toSI: by(1) }],
  ["distance_ft", { measure: "distance", toSI: by(FOOT_m) }],
  ["distance_yd", { measure: "distance", toSI: by(0.9144) }],
  ["height_m", { measure: "rise", toSI: by(1) }],
  ["height_mm", { measure: "rise", toSI: by(0.001) }],
  ["height_ft", { measure: "rise", toSI: by(FOOT_m) }],
  ["height_in", { measure: "rise", toSI: by(0.0254) }],
  ["gradient_percent", { measure: "rise", toSI: by(0.01), blank: 0 }],
  [
    "gradient_1_in",
    {
      measure: "rise",
      toSI: (n) => 1 / n,
      blank: 0,
      refuse: (n) => (Math.abs(n) > 1 ? undefined : "a gradient of 1 in 80 is written 80 or -80, level is left blank"),
    },
  ],
  ["gradient_doubt_percent", { measure: "doubt", toSI: by(0.01), blank: 0, refuse: doubted }],
  ["levelling", { measure: "levelling", toSI: by(1) }],
  ["radius_m", { ...radius, toSI: (r) => 1 / r }],
  ["radius_ft", { ...radius, toSI: (r) => 1 / (r * FOOT_m) }],
  ["limit_mph", { ...limit, toSI: by(MPH_mps) }],
  ["limit_kmh", { ...limit, toSI: by(KMH_mps) }],
  ["place", { measure: "place", toSI: by(1) }],
]);
