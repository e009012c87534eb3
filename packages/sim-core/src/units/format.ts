import type { Dimension } from "../keys.js";
import { quantity } from "./units.js";

/** The units people think in. */
export type UnitStyle = "metric" | "imperial";

/** A unit to print in, for amounts of at least `from` of it. */
interface Step {
  unit: string;
  from?: number;
}

/** Largest first; the last takes whatever is smaller. */
const METRIC: Record<Exclude<Dimension, "time" | "temperature">, readonly Step[]> = {
  mass: [{ unit: "kg", from: 1 }, { unit: "g" }],
  length: [{ unit: "km", from: 10 }, { unit: "m", from: 1 }, { unit: "mm" }],
  area: [{ unit: "m²" }],
  cable_area: [{ unit: "mm²" }],
  speed: [{ unit: "km/h" }],
  shaft_speed: [{ unit: "rpm" }],
  acceleration: [{ unit: "m/s²" }],
  voltage: [{ unit: "V" }],
  current: [{ unit: "A" }],
  power: [{ unit: "W" }],
  resistance: [{ unit: "ohm", from: 1 }, { unit: "mohm" }],
  charge: [{ unit: "Ah" }],
  force: [{ unit: "N" }],
  torque: [{ unit: "N m" }],
  torque_constant: [{ unit: "N m/A" }],
  viscous_drag: [{ unit: "N m s" }],
  inertia: [{ unit: "kg m²" }],
  heat_capacity: [{ unit: "J/K" }],
  thermal_resistance: [{ unit: "K/W" }],
  rate: [{ unit: "/h" }],
  per_speed: [{ unit: "s/m" }],
};

const IMPERIAL: Partial<Record<Dimension, readonly Step[]>> = {
  mass: [{ unit: "lb", from: 1 }, { unit: "oz" }],
  length: [{ unit: "miles", from: 2 }, { unit: "ft", from: 3 }, { unit: "in" }],
  area: [{ unit: "ft²" }],
  speed: [{ unit: "mph" }],
  force: [{ unit: "lbf" }],
  torque: [{ unit: "lbf ft" }],
};

/** Three figures, but whole units in full: 0.0764, 26.7, 1834; never with an exponent or zeros at its end. */
export function figures(value: number): string {
  if (!Number.isFinite(value)) return Number.isNaN(value) ? "unknown" : value > 0 ? "unlimited" : "-unlimited";
  const rounded = Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3));
  if (rounded === 0) return "0";
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(rounded))));
  const text = rounded
    .toFixed(Math.min(decimals, 12))
    .replace(/(\.\d*?)0+$/, "$1")
    .replace(/\.$/, "");
  return text === "-0" ? "0" : text;
}

/**
 * A value for people's eyes: `format(1.788, "speed", "imperial")` is `4 mph`.
 * @param value in the unit of `UNIT_OF` (SI; temperature in °C, cable area in mm²)
 */
export function format(value: number, dimension: Dimension, units: UnitStyle): string {
  if (!Number.isFinite(value)) return figures(value);
  if (dimension === "time") return duration(value);
  if (dimension === "temperature") {
    return units === "metric" ? `${figures(value)} °C` : `${figures((value * 9) / 5 + 32)} °F`;
  }
  const steps = (units === "imperial" ? IMPERIAL[dimension] : undefined) ?? METRIC[dimension];
  const sized = steps.map(({ unit, from = 0 }) => ({ unit, from, size: quantity(`1 ${unit}`, dimension) }));
  const step = sized.find(({ from, size }) => Math.abs(value) >= from * size * (1 - 1e-9)) ?? sized.at(-1)!;
  const used = value === 0 ? sized[Math.max(0, sized.length - 2)]! : step;
  return `${figures(value / used.size)} ${used.unit}`;
}

/**
 * The value as `format` has it and the other style's in brackets where it differs; beside a speed stands m/s:
 * `4 mph (1.79 m/s)`, `7.25 in (184 mm)`.
 */
export function formatBoth(value: number, dimension: Dimension, units: UnitStyle): string {
  const own = format(value, dimension, units);
  const other =
    dimension === "speed"
      ? `${figures(value)} m/s`
      : format(value, dimension, units === "metric" ? "imperial" : "metric");
  return own === other || !Number.isFinite(value) ? own : `${own} (${other})`;
}

/** A slope as railways say it, from its sine: `1 in 52`, `-1 in 52` downhill, `level` under 1 in 10,000. */
export function formatGradient(sine: number): string {
  if (!Number.isFinite(sine)) return figures(sine);
  if (Math.abs(sine) < 1e-4) return "level";
  return `${sine < 0 ? "-" : ""}1 in ${figures(1 / Math.abs(sine))}`;
}

/** A pure number as percent: `80 %`. */
export const formatPercent = (share: number): string => `${figures(share * 100)} %`;

/** `1 h 20 min`, `2 min 5 s`, `1.5 s`. */
function duration(time_s: number): string {
  if (Math.abs(time_s) < 60 && Number(Math.abs(time_s).toPrecision(3)) < 60) return `${figures(time_s)} s`;
  const sign = time_s < 0 ? "-" : "";
  const seconds = Math.round(Math.abs(time_s));
  const minutes = seconds < 3600 ? Math.floor(seconds / 60) : Math.round(seconds / 60);
  const parts =
    minutes >= 60
      ? [`${Math.floor(minutes / 60)} h`, minutes % 60 && `${minutes % 60} min`]
      : [`${minutes} min`, seconds % 60 && `${seconds % 60} s`];
  return sign + parts.filter(Boolean).join(" ");
}
