import {
  type Dimension,
  FOOT_m,
  figures,
  format,
  formatBoth,
  formatGradient,
  shown,
  type Track,
  type UnitStyle,
} from "@rideon/sim-core";
import { plain } from "../ground/plain.js";

/** Values for people's eyes: first in the units they think in, with the other style in brackets where they may want it. */
export interface Eyes {
  /** `4 mph (1.79 m/s)`. */
  speed(value_mps: number): string;
  /** `396 m (1299 ft)`. */
  length(value_m: number): string;
  /** Volts, amps, times; forces, masses and temperatures, which are metric unless imperial is asked for. */
  of(value: number, dimension: Dimension): string;
  /** As a log has them. */
  exact: Exact;
  /** A difference of temperatures: `12 °C`. */
  warmth(value_K: number): string;
  /** `212 m, past Top Signal`: as the trace counts, from the first post. */
  place(chainage_m: number): string;
  /** `1 in 71 uphill (1.41 %)`. */
  gradient(percent: number): string;
  /** The style that speeds are told in. */
  style: UnitStyle;
  /** What chainages are told in: metres, as the trace has them, unless imperial is asked for. */
  chainageUnit: "m" | "ft";
}

/** Values to four figures, in SI units: `1.788 m/s`, `237.4 N`; `4 mph (1.79 m/s)` where imperial is asked for. */
export type Exact = (value: number, dimension: LoggedIn | "small_length") => string;

/** The SI unit of what logs tell. */
const SI = {
  speed: "m/s",
  length: "m",
  force: "N",
  current: "A",
  voltage: "V",
  power: "W",
  temperature: "°C",
  time: "s",
};
type LoggedIn = keyof typeof SI & Dimension;

export const exactIn =
  (asked?: UnitStyle): Exact =>
  (value, what) => {
    const [dimension, metric] =
      what === "small_length" ? (["length", shown(1000 * value, "mm")] as const) : [what, shown(value, SI[what])];
    const imperial = formatBoth(value, dimension, "imperial");
    return asked !== "imperial" || imperial === format(value, dimension, "metric") ? metric : imperial;
  };

/** @param typed the style of the files; @param asked by `--units` */
export function eyesFor(typed: UnitStyle, asked: UnitStyle | undefined, track: Track): Eyes {
  const style = asked ?? typed;
  const other: UnitStyle = asked ?? "metric";
  const chainageUnit = asked === "imperial" ? "ft" : "m";
  const of = (value: number, dimension: Dimension) =>
    asked === "imperial" ? formatBoth(value, dimension, "imperial") : format(value, dimension, "metric");
  return {
    style,
    chainageUnit,
    of,
    exact: exactIn(asked),
    warmth(value_K) {
      const metric = `${figures(value_K)} °C`;
      return asked === "imperial" ? `${figures(1.8 * value_K)} °F (${metric})` : metric;
    },
    speed: (value_mps) => formatBoth(value_mps, "speed", style),
    length: (value_m) => formatBoth(value_m, "length", other),
    place(chainage_m) {
      const name = placeBefore(track, chainage_m);
      const chainage = `${tenths(chainage_m / (chainageUnit === "ft" ? FOOT_m : 1))} ${chainageUnit}`;
      return name === "" ? chainage : `${chainage}, ${name}`;
    },
    gradient(percent) {
      const slope = formatGradient(Math.abs(percent) / 100);
      if (slope === "level") return slope;
      return `${slope} ${percent > 0 ? "uphill" : "downhill"} (${figures(Math.abs(percent))} %)`;
    },
  };
}

/** Of a metre or a foot: nobody finds a place on the line closer than that. */
const tenths = (value: number): string => (Math.round(10 * value) / 10).toString();

/** Nearer than this to a named post is at it, m. */
const AT_m = 0.5;

/** `Top Signal` or `past Top Signal`, by the last named post before; nothing where there is none. */
export function placeBefore({ distance_m, place }: Pick<Track, "distance_m" | "place">, chainage_m: number): string {
  for (let i = distance_m.length - 1; i >= 0; i--) {
    const past_m = chainage_m - (distance_m[i] ?? 0);
    if (past_m < -AT_m || !place[i]) continue;
    return `${past_m < AT_m ? "" : "past "}${plain(place[i] ?? "")}`;
  }
  return "";
}

/** `4 mph`: where there is no room for the other style in brackets. */
export const shortSpeed = (speed_mps: number, { speed }: Eyes): string => speed(speed_mps).replace(/ \(.*$/, "");

/** `121.9 m` or `400 ft`, as chainages are told. */
export const shortLength = (length_m: number, { chainageUnit }: Eyes): string =>
  `${figures(length_m / (chainageUnit === "ft" ? FOOT_m : 1))} ${chainageUnit}`;
