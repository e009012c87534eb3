import { FOOT_m } from "@rideon/sim-core";

/** What a column of a survey's book holds. */
export type BookMeasure =
  | "distance"
  | "backsight"
  | "intermediate"
  | "foresight"
  | "known_level"
  | "tube_back"
  | "tube_ahead"
  | "slope"
  | "place";

export interface BookColumn {
  measure: BookMeasure;
  toSI: (value: number) => number;
}

const by =
  (size: number) =>
  (value: number): number =>
    value * size;
const INCH_m = 0.0254;
const LENGTHS = [
  ["m", 1],
  ["mm", 0.001],
  ["cm", 0.01],
  ["ft", FOOT_m],
  ["in", INCH_m],
] as const;

const READINGS = ["backsight", "intermediate", "foresight", "tube_back", "tube_ahead"] as const;
const lengths = ([...READINGS, "known_level"] as const).flatMap((measure) =>
  LENGTHS.map(([unit, size]): [string, BookColumn] => [`${measure}_${unit}`, { measure, toSI: by(size) }]),
);

/** Is this a column of readings in a unit of which no staff is a thousand long? */
export const isReading = (name: string): boolean =>
  !name.endsWith("_mm") && READINGS.some((measure) => BOOK_COLUMNS.get(name)?.measure === measure);

/** Every column, by families. */
export const COLUMNS_IN_WORDS = `distance (_m, _ft or _yd); backsight, intermediate, foresight, known_level, tube_back and tube_ahead (each ${LENGTHS.map(([unit]) => `_${unit}`).join(", ")}); slope_degrees and slope_percent; place`;

/** Every column a book may have, by its name with its unit. Of a measure only one may be there. */
export const BOOK_COLUMNS: ReadonlyMap<string, BookColumn> = new Map<string, BookColumn>([
  ["distance_m", { measure: "distance", toSI: by(1) }],
  ["distance_ft", { measure: "distance", toSI: by(FOOT_m) }],
  ["distance_yd", { measure: "distance", toSI: by(3 * FOOT_m) }],
  ...lengths,
  // Along the rail the sine counts, and an inclinometer in percent tells the tangent: alike to 1 in 5000 at 1 in 50.
  ["slope_degrees", { measure: "slope", toSI: (degrees) => Math.sin((degrees * Math.PI) / 180) }],
  ["slope_percent", { measure: "slope", toSI: (percent) => Math.sin(Math.atan(percent / 100)) }],
  ["place", { measure: "place", toSI: by(1) }],
]);
